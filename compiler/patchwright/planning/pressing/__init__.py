"""Pressing: which way every seam of a plan lies, so that as many junctions nest as can.

Read `press` first; it runs model, problem and solution in order. `recount` counts again from the finished top.
"""
