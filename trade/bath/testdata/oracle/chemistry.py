"""pH of a stop bath with a developer's alkali in it: total concentrations, charge balance, Davies, one root.

Molal, closed (no carbon dioxide is lost), no ion pairs, a litre taken as a kilogram. Constants at 25 °C and no ionic
strength: acetic, carbonic, water after the PHREEQC database minteq.v4, sulfurous after its sit.dat; enthalpies and
heat capacities from memory of Goldberg, Kishore and Lennen, J. Phys. Chem. Ref. Data 31 (2002) 231. Davies with 0.3 I;
A at 20 °C from IAPWS density and dielectric constant.
"""
import numpy as np
from scipy.optimize import brentq

R, T0 = 8.314462618, 298.15
# pK at 25 °C, enthalpy kJ/mol, heat capacity J/(mol K); of each dissociation in turn
ACETIC = [(4.757, -0.41, -142)]
CARBONIC = [(6.352, 9.15, -371), (10.329, 14.70, -249)]
SULFUROUS = [(1.86, -17.80, -272), (7.17, -3.65, -262)]
PHOSPHORIC = [(2.148, -8.0, -141), (7.198, 3.6, -230), (12.375, 16.0, -242)]
WATER = (13.997, 55.815, -196)
A = {20: 0.50553, 25: 0.50978}

STOP_ACETIC = 0.232  # mol/kg, what is assumed where nothing is declared
DEVELOPER_CARBONATE, DEVELOPER_SULFITE = 0.2123, 0.1190  # mol/L of Na2CO3 and Na2SO3 in the assumed developer
PH_AT_TURN = 5.2  # bromocresol purple is yellow below it


def pk(constant, celsius):
    pk0, h, cp = constant
    t, h = celsius + 273.15, h * 1000
    s0 = h / T0 - R * np.log(10) * pk0
    g = h + cp * (t - T0) - t * (s0 + cp * np.log(t / T0))
    return g / (R * t * np.log(10))


def davies(z, ionic, celsius):
    root = np.sqrt(ionic)
    return 10 ** (-A[celsius] * z * z * (root / (1 + root) - 0.3 * ionic))


def species(ph, acids, sodium, ionic, celsius):
    """[(charge, molality)] of everything charged, at this pH and ionic strength."""
    gamma = [davies(z, ionic, celsius) for z in range(5)]
    h = 10.0 ** -ph
    out = [(1, sodium), (1, h / gamma[1]), (-1, 10 ** -pk(WATER, celsius) / h / gamma[1])]
    for constants, total in acids:
        share, step = [1.0], 1.0
        for z, constant in enumerate(constants, start=1):
            step *= 10 ** -pk(constant, celsius) / h
            share.append(step / gamma[z])
        whole = sum(share)
        out += [(-z, total * s / whole) for z, s in enumerate(share) if z]
    return out


def ph(acids, sodium, celsius=20):
    """acids: [(constants, total mol/kg)], all counted from the neutral acid; sodium mol/kg as the counter-ion."""
    ionic = 0.1
    for _ in range(200):
        root = brentq(lambda x: sum(z * m for z, m in species(x, acids, sodium, ionic, celsius)), -1, 15, xtol=1e-13)
        new = 0.5 * sum(z * z * m for z, m in species(root, acids, sodium, ionic, celsius))
        if abs(new - ionic) < 1e-14:
            return root
        ionic = new
    raise ArithmeticError("the ionic strength does not settle")


def ph_at_share(x, acetic=STOP_ACETIC, celsius=20):
    """pH of a stop bath of which the share x is developer."""
    carbonate, sulfite = x * DEVELOPER_CARBONATE, x * DEVELOPER_SULFITE
    acids = [(ACETIC, (1 - x) * acetic), (CARBONIC, carbonate), (SULFUROUS, sulfite)]
    return ph(acids, 2 * carbonate + 2 * sulfite, celsius)


def share_at_ph(turn=PH_AT_TURN, acetic=STOP_ACETIC):
    return brentq(lambda x: ph_at_share(x, acetic) - turn, 0.001, 0.999, xtol=1e-13)


SHARE_AT_TURN = share_at_ph()
