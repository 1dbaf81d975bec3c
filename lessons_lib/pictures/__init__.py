"""Arrays in, matplotlib artists out: pictures never compute physics and never show themselves."""
