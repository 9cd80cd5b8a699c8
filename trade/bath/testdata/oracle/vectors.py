"""Requests with answers, so that the Go tests need no Python. Fixed seed; a request whose counts hang on the last
digits of a float is not kept, so the answers are the same however the sums are ordered."""
import copy
import json
import platform

import numpy as np
import scipy

import chemistry as ch
import model

SEED, REQUESTS, DRAWS = 1924, 60, 16
MOST = 1000  # sheets; a count beyond is of no use to anybody
ROWS = (0, 1, 2, 5, 10, 20)
AREAS = {"8x10 in": 8 * 10 * 0.0254**2, "24x30 cm": 0.072, "5x7 in": 5 * 7 * 0.0254**2, "16x20 in": 16 * 20 * 0.0254**2}
CHAINS = [  # each comes round every twelfth request
    "developer stop fixer", "developer stop fixer fixer", "developer water fixer", "developer water fixer fixer",
    "stop fixer", "fixer", "fixer fixer", "developer stop fixer water fixer", "developer stop fixer fixer fixer",
    "developer developer stop fixer", "water fixer water", "developer stop water fixer fixer water",
]


def request(rng, n):
    kinds = CHAINS[n % len(CHAINS)].split()
    fb = n % 2 == 0 if n // len(CHAINS) % 2 == 0 else n % 2 == 1
    pick = lambda *x: x[rng.integers(len(x))]
    litres, strength = pick(1.0, 1.5, 2.0, 3.5), pick(79.0, 120.0, 158.0, 190.0)
    alike = rng.random() < 0.5
    baths, fixers = [], 0
    for kind in kinds:
        b = {"kind": kind, "volume_l": litres if alike else pick(1.0, 1.5, 2.0, 3.5)}
        if kind == "stop":
            b["developer_share_most"] = pick(0.258289653, 0.258289653, 0.15) if kinds[0] == "developer" else None
        if kind == "fixer":
            b.update(thiosulfate_g_per_l=strength if alike else pick(79.0, 120.0, 158.0),
                     silver_limit_g_per_l=pick(2.0, 0.8, 1.8, 3.0) if fixers == 0 else pick(0.3, 0.05, 0.5, None),
                     thiosulfate_least_share=pick(0.5, 0.5, 0.5, 0.7, None))
            if kinds[0] == "fixer" and fixers == 0:
                b["silver_limit_g_per_l"] = pick(0.5, 0.8)  # reached before the tray is dry
            elif b["silver_limit_g_per_l"] is None:
                b["thiosulfate_least_share"] = 0.5
            if fixers == 0 and n % 5 == 4:  # a second bath that became the first: worked, thinned
                b.update(silver_g_per_l=0.21, thiosulfate_made_g_per_l=b["thiosulfate_g_per_l"],
                         thiosulfate_g_per_l=round(b["thiosulfate_g_per_l"] * 0.93, 3))
            fixers += 1
        baths.append(b)
    z = rng.standard_normal((3, DRAWS)).round(4).tolist()
    if n % 7 == 3:
        z[1][0] = 3.1  # the undeveloped share meets 1
    material = {"area_m2": pick(*AREAS.values()), "carry_l_per_m2": 0.155 if fb else 0.035,
                "coating_g_per_m2": 1.5 if fb else 1.0, "undeveloped": pick(0.7, 0.7, 0.5, 0.95)}
    return {"baths": baths, "film_strength_g_per_l": 158.0, "material": material, "sheets": 30,
            "draws": dict(zip(model.SIGMA, z))}


def firm(r, reply):
    """Whether the counts stay when every limit moves by a billionth either way."""
    for factor in (1 - 1e-9, 1 + 1e-9):
        moved = copy.deepcopy(r)
        for b in moved["baths"]:
            for name in ("silver_limit_g_per_l", "thiosulfate_least_share", "developer_share_most"):
                if b.get(name):
                    b[name] *= factor
        again = model.answer(moved, ())
        if any(again[k] != reply[k] for k in ("counts", "binds", "median_counts", "median_binds")):
            return False
    return True


def once(r, reply):
    """Whether no bath holds again once it has failed (a stronger fixer before it could bring that about), at the
    median parameters and half as many sheets again; so "still holds" has one meaning."""
    chain, m = model.Chain(r), r["material"]
    state = model.State(chain)
    carry, silver = m["area_m2"] * m["carry_l_per_m2"], m["area_m2"] * m["coating_g_per_m2"] * m["undeveloped"]
    for k in range(1, 3 * max(c for c in reply["median_counts"] if c is not None) // 2 + 2):
        state.sheet(chain.first_fixer, carry, silver)
        if chain.first_fixer == 0 and state.volume[0] <= carry:
            return True
        for i, count in enumerate(reply["median_counts"]):
            holds = chain.holds(i, *(state.conc[row][i] for row in range(3)))
            if count is not None and all(holds.values()) != (k <= count):
                return False
    return True


def titration():
    shares = [0.0, 0.01, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5]
    acids = [0.1, 0.15, 0.232, 0.4]
    return {
        "celsius": 20, "carbonate_mol_per_l": ch.DEVELOPER_CARBONATE, "sulfite_mol_per_l": ch.DEVELOPER_SULFITE,
        "ph_at_share": [{"acetic_mol_per_kg": a, "share": x, "ph": round(ch.ph_at_share(x, a), 6)}
                        for a in acids for x in shares],
        "share_at_ph": [{"acetic_mol_per_kg": a, "ph": 5.2, "share": round(ch.share_at_ph(5.2, a), 9)} for a in acids],
    }


def vectors(out):
    rng = np.random.Generator(np.random.PCG64(SEED))
    kept, n = [], 0
    while len(kept) < REQUESTS:
        r = request(rng, n)
        n += 1
        try:
            reply = model.answer(r, ROWS + (r["sheets"],))
        except ValueError:  # a first bath that runs dry
            continue
        if max(c for x in reply["counts"] if x for c in x) <= MOST and firm(r, reply) and once(r, reply):
            kept.append({"request": r, "answer": reply})
    header = {"written_by": "model.py vectors", "python": platform.python_version(), "numpy": np.__version__,
              "scipy": scipy.__version__, "seed": SEED, "tried": n}
    out.write('{"header": %s,\n"titration": %s,\n"vectors": [\n' % (json.dumps(header), json.dumps(titration())))
    out.write(",\n".join(json.dumps(k, separators=(",", ":")) for k in kept))
    out.write("\n]}\n")
