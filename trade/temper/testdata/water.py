"""IAPWS-95 by python3-iapws: for each line "water t" on stdin prints density and enthalpy of the liquid at 101.325
kPa; for "ice" the heat of melting at 0 °C by IAPWS-06; for "mix hot cold want total chemical chemical_at" the
volumes of hot and cold water by Cramer's rule on mass and enthalpy."""
import sys

from iapws import IAPWS95
from iapws._iapws import _Ice

P = 0.101325


def water(t):
    s = IAPWS95(T=t + 273.15, P=P)
    return s.rho, s.h


def mix(hot, cold, want, total, chemical, chemical_at):
    (rh, hh), (rc, hc), (rw, hw), (rk, hk) = (water(t) for t in (hot, cold, want, chemical_at))
    mass = rw * total - rk * chemical
    heat = rw * total * hw - rk * chemical * hk
    det = hc - hh
    return (mass * hc - heat) / det / rh, (heat - mass * hh) / det / rc


for line in sys.stdin:
    word, *numbers = line.split()
    numbers = [float(n) for n in numbers]
    if word == "water":
        print(*water(*numbers))
    elif word == "mix":
        print(*mix(*numbers))
    else:
        print(water(0)[1] - _Ice(273.15, P)["h"])
