"""Declared → Design: names, defaults, sizes, house rules."""
