"""Settings and borders: one module for each way of setting blocks and each kind of border, and a registry.

In: a size of the design, and the blocks as they are made.
Out: placed parts with their finished places, and the plain cloth that they take.
Never: a letter of a piece, strips or yardage.
"""
