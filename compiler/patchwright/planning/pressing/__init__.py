"""Pressing."""
