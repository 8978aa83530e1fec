"""Tastings: serving plans, discrimination, ranks, scores, durations and worded verdicts.

Pure functions: arrays of tasters by samples in, frozen dataclasses out. A missing score
is NaN on the way in; nothing that comes out is ever NaN (`None` where there is no answer).
"""
