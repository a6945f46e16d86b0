"""Long measurements, run by hand: each module prints its table."""
