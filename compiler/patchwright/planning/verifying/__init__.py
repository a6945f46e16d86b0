"""What `verify` is made of: one module for each part of the plan that is added up again."""
