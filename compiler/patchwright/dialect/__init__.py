"""YAML text → tree with positions → Declared."""
