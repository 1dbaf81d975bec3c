"""Arrays in, matplotlib artists out: pictures never compute physics and never show themselves.

A picture is made in axes or a figure of matplotlib, with fixed limits; its `update` takes SI (dB where it says so) and
returns the artists that moved, a list in drawing order.
"""
