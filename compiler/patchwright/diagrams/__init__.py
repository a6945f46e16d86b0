"""Drawings: a plan becomes finished scenes (`figures.py`), and scenes become SVG (`svg.py`).

Never: a number that the plan does not have, or a sentence that is not in the wording.
"""
