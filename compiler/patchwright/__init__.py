"""Patchwright compiles a quilt pattern, written as text, into printable and web instruction booklets."""
