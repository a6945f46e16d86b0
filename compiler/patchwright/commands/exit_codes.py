"""What the program ends with: 0 clean; 1 a pattern has errors; 2 wrong usage, files in the way or an internal fault.

As other programs do: 130 interrupted, 141 nobody reads on, 143 asked to end.
"""

CLEAN, FAULTY, BROKEN = 0, 1, 2
INTERRUPTED, UNREAD, ENDED = 130, 141, 143
