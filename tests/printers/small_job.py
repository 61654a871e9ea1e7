"""A job that is quickly drawn: one joint, on boards as long as a page of A4 is wide."""

SMALL_JOB = """
title = "Small box"
[boards.side]
width = 170
thickness = 12
[boards.end]
width = 170
thickness = 12
[[joints]]
kind = "through-dovetail"
corners = ["A"]
tail_board = "side"
pin_board = "end"
tails = 3
slope = "1:7"
"""
