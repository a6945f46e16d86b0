"""Piecing methods, one file each, and the registry of all of them."""
