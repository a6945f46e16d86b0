"""The commands of the program, one module for each; nothing but these and `cli` prints."""
