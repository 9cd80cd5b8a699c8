#!/usr/bin/python3
"""Baths at work, written a second time to hold the Go package against: plain recursions over sheets, closed forms
where there are any, and a pH solver for the stop bath. See README.md for what is read how.

  model.py check                            the worked figures, printed and asserted
  model.py run < request.json > answer.json one chain: what is in every bath after every sheet, counts of every draw
  model.py bench                            12 baths, 4,000 draws, best of 20
  model.py vectors > vectors.json           requests with answers for the Go tests
"""
import json
import sys

import numpy as np

from chemistry import SHARE_AT_TURN

SIGMA = {"coating": 0.20, "undeveloped": 0.15, "carry": 0.25}  # of the logarithm, from memory
MOST_SHEETS = 1_000_000


class Chain:
    """A chain as requested. Floats, or Fractions where a check wants exact sums."""

    def __init__(self, request, number=float):
        baths = request["baths"]
        self.kind = [b["kind"] for b in baths]
        self.volume = [number(b["volume_l"]) for b in baths]
        self.silver = [number(b.get("silver_g_per_l") or 0) for b in baths]
        self.thio = [number(b.get("thiosulfate_g_per_l") or 0) for b in baths]
        self.made = [number(b.get("thiosulfate_made_g_per_l") or b.get("thiosulfate_g_per_l") or 0) for b in baths]
        self.limit = [b.get("silver_limit_g_per_l") for b in baths]
        self.least = [b.get("thiosulfate_least_share", 0.5) or 0 for b in baths]
        self.most = [b.get("developer_share_most", SHARE_AT_TURN if b["kind"] == "stop" else None) for b in baths]
        if "developer" not in self.kind:
            self.most = [None] * len(baths)
        self.film = number(request["film_strength_g_per_l"])
        self.first_fixer = self.kind.index("fixer") if "fixer" in self.kind else None

    def holds(self, i, silver, thio, developer):
        """For every limit of bath i by name: whether it holds at these concentrations."""
        out = {}
        if self.kind[i] == "fixer" and self.limit[i] is not None:
            out["silver"] = silver <= self.limit[i] * thio / self.film
        if self.kind[i] == "fixer" and self.least[i]:
            out["thiosulfate"] = thio >= self.least[i] * self.made[i]
        if self.kind[i] == "stop" and self.most[i] is not None:
            out["ph"] = developer <= self.most[i]
        return out

    def limited(self, i):
        return bool(self.holds(i, 0.0, 0.0, 0.0))


class State:
    """Concentrations of the tracked amounts (rows) in every bath, volumes, and what has left the last bath."""

    def __init__(self, chain):
        n = len(chain.kind)
        one = chain.film / chain.film
        self.volume = list(chain.volume)
        marker = [[one if j == i else one * 0 for j in range(n)] for i in range(n)]  # liquid of bath i, in bath j
        developer = [one if k == "developer" else one * 0 for k in chain.kind]
        self.conc = [list(chain.silver), list(chain.thio), developer] + marker
        self.out = [0 * one for _ in self.conc]
        self.out_litres = 0 * one
        self.dissolved = 0 * one

    def sheet(self, first_fixer, carry, silver):
        """One sheet through the chain: mix, dissolve, leave; bath after bath."""
        for i in range(len(self.volume)):
            volume = self.volume[i]
            for row, conc in enumerate(self.conc):
                amount = volume * conc[i]
                if i > 0:
                    amount = amount + carry * conc[i - 1]
                if row == 0 and i == first_fixer:
                    amount = amount + silver
                conc[i] = amount / (volume if i == 0 else volume + carry)
            if i == 0:
                self.volume[0] = volume - carry
        for row, conc in enumerate(self.conc):
            self.out[row] = self.out[row] + carry * conc[-1]
        self.out_litres = self.out_litres + carry
        if first_fixer is not None:
            self.dissolved = self.dissolved + silver


def trajectory(request, number=float):
    """State after every sheet 0..n at the stated (median) parameters."""
    chain, m = Chain(request, number), request["material"]
    state = State(chain)
    area = number(m["area_m2"])
    carry, silver = area * number(m["carry_l_per_m2"]), area * number(m["coating_g_per_m2"]) * number(m["undeveloped"])
    rows = [snapshot(0, state)]
    for k in range(1, request["sheets"] + 1):
        if state.volume[0] - carry < 0:
            raise ValueError(f"the first bath is dry at sheet {k}")
        state.sheet(chain.first_fixer, carry, silver)
        rows.append(snapshot(k, state))
    return rows


def snapshot(k, state):
    n = len(state.volume)
    return {
        "sheet": k,
        "volume_l": list(state.volume),
        "silver_g_per_l": list(state.conc[0]),
        "thiosulfate_g_per_l": list(state.conc[1]),
        "developer_share": list(state.conc[2]),
        "own_share": [state.conc[3 + i][i] for i in range(n)],
        "carried_out": {"litres": state.out_litres, "silver_g": state.out[0], "thiosulfate_g": state.out[1],
                        "developer_l": state.out[2], "own_l": list(state.out[3:])},
        "dissolved_g": state.dissolved,
    }


def values(material, z):
    """Parameters of every draw; z maps coating, undeveloped, carry to standard normals."""
    z = {name: np.asarray(z[name], float) for name in SIGMA}
    return {
        "coating_g_per_m2": material["coating_g_per_m2"] * np.exp(SIGMA["coating"] * z["coating"]),
        "undeveloped": np.minimum(1, material["undeveloped"] * np.exp(SIGMA["undeveloped"] * z["undeveloped"])),
        "carry_l_per_m2": material["carry_l_per_m2"] * np.exp(SIGMA["carry"] * z["carry"]),
    }


def normals(n, seed):
    z = np.random.Generator(np.random.PCG64(seed)).standard_normal((n, 3))
    return {"coating": z[:, 0], "undeveloped": z[:, 1], "carry": z[:, 2]}


def counts(request, v):
    """For every bath the count of every draw (None: nothing limits it) and what bound it; sheet by sheet until all
    have failed. Where two limits fail at the same sheet, binds names the first of silver, thiosulfate, ph."""
    chain = Chain(request)
    area = request["material"]["area_m2"]
    carry = area * v["carry_l_per_m2"]
    silver = area * v["coating_g_per_m2"] * v["undeveloped"]
    state, n = State(chain), len(chain.kind)
    limited = [i for i in range(n) if chain.limited(i)]
    count = {i: np.full(carry.shape, -1) for i in limited}
    binds = {i: np.full(carry.shape, "", dtype=object) for i in limited}
    for k in range(MOST_SHEETS):
        if k:
            state.sheet(chain.first_fixer, carry, silver)
        for i in limited:
            for name, ok in chain.holds(i, state.conc[0][i], state.conc[1][i], state.conc[2][i]).items():
                failed = np.broadcast_to(~np.asarray(ok), carry.shape)
                new = failed & (count[i] < 0)
                binds[i][new] = name
                count[i][new] = max(k - 1, 0)
        if all((count[i] >= 0).all() for i in limited):
            return [count.get(i) for i in range(n)], [binds.get(i) for i in range(n)]
        if chain.first_fixer == 0 and (state.volume[0] - carry < 0).any():
            raise ValueError("the first bath is dry before it is spent")
    raise ValueError("a bath outlasts what is counted to")


def quantiles(c):
    """p10, p50, p90: of the N sorted counts the one at floor(p·(N−1)), from nought (numpy's method "lower")."""
    return [int(q) for q in np.quantile(c, [0.1, 0.5, 0.9], method="lower")]


def answer(request, sheets=None):
    """The whole answer; sheets selects rows of the trajectory."""
    rows = trajectory(request)
    zero = {name: [0.0] for name in SIGMA}
    median, binds = counts(request, values(request["material"], zero))
    out = {
        "trajectory": [r for r in rows if sheets is None or r["sheet"] in sheets],
        "median_counts": [None if c is None else int(c[0]) for c in median],
        "median_binds": [None if b is None else b[0] for b in binds],
    }
    if "n_draws" in request or "draws" in request:
        z = request["draws"] if "draws" in request else normals(request["n_draws"], request["seed"])
        v = values(request["material"], z)
        c, b = counts(request, v)
        out["values"] = {name: x.tolist() for name, x in v.items()}
        out["counts"] = [None if x is None else x.tolist() for x in c]
        out["binds"] = [None if x is None else x.tolist() for x in b]
        out["quantiles"] = [None if x is None else quantiles(x) for x in c]
    return out


def main(words):
    if words == ["run"]:
        json.dump(answer(json.load(sys.stdin)), sys.stdout, indent=1)
    elif words == ["check"]:
        from checks import check
        sys.exit(check())
    elif words == ["bench"]:
        from closed import bench
        bench()
    elif words == ["vectors"]:
        from vectors import vectors
        vectors(sys.stdout)
    else:
        sys.exit(__doc__)


if __name__ == "__main__":
    main(sys.argv[1:])
