"""What commands do beyond compiling and building one pattern, one module for each."""
