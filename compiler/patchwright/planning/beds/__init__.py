"""Quilts for beds: how many blocks and how wide borders reach the size that a bed asks for."""
