"""What helps a person check a pattern before it is printed."""
