"""What the program ends with: 0 clean; 1 a pattern has errors; 2 wrong usage or an internal fault; 130 interrupted."""

CLEAN, FAULTY, BROKEN, INTERRUPTED = 0, 1, 2, 130
