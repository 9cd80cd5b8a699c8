#!/usr/bin/python3
"""Writes the molar mass of each formula on standard input, by Debian's python3-periodictable.

With a file name it writes that file, with the version at its head.
"""
import sys

import periodictable

formulas = [line.strip() for line in sys.stdin if line.strip()]
out = open(sys.argv[1], "w", encoding="utf-8") if len(sys.argv) > 1 else sys.stdout
if len(sys.argv) > 1:
    out.write("# Molar masses, g/mol, by python3-periodictable %s (testdata/molar_masses.py). Not edited by hand.\n"
              % periodictable.__version__)
for f in formulas:
    # periodictable writes water of crystallisation with a plus and its number before it.
    mass = periodictable.formula(f.replace("·", "+")).mass
    out.write("%s %.6f\n" % (f, mass))
