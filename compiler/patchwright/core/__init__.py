"""What every stage stands on: exact lengths and geometry, sources and spans, diagnostics and codes, theme tokens."""
