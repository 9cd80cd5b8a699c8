"""Closed forms of the counts for the usual chain (developer, stop, then one or two fixers fresh and alike, one volume),
as whole arrays over draws and chains; held against the sheet-by-sheet model by "model.py check", timed by "bench".

With r = V/(V+v) and n sheets of carry-over v and silver s: the stop bath is 1 − r^n developer; the first fixer keeps
u = r^n of its liquid, the second holds u = r^n·(1 + n·(1−r)) of both fixers' liquid; thiosulfate is u of the fresh,
silver (s/v)·(1−u). So silver ≤ limit·(thiosulfate/film) is u ≥ 1/(1 + limit·(fresh/film)·v/s), and too little
thiosulfate is u < share.
"""
import time

import numpy as np

from chemistry import SHARE_AT_TURN


def lasts(step, a, stop_log, logs):
    """Sheets, not yet rounded down, until each bath fails. step = −log r, a = 1 − r; logs: −log of the least u of
    each fixer. The second by Newton on log(1 + n·a) − n·step = −log, from the series about n = 0."""
    out = [stop_log / step, logs[0] / step]
    if len(logs) > 1:
        n = (np.sqrt(2 * logs[1]) + (2 / 3) * logs[1]) / step
        for _ in range(2):
            w = 1 + n * a
            n -= (np.log(w) - n * step + logs[1]) / (a / w - step)
        out.append(n)
    return out


def forecast(volume, carry, silver, limits, strength=1.0, share=0.5):
    """Sheets, not rounded down, of stop bath, fixer and, if there are two limits, second fixer; strength is
    fresh ÷ film, share the least of the fresh thiosulfate."""
    ratio = carry / volume
    logs = [np.minimum(-np.log(share), np.log1p(x * strength * carry / silver)) for x in limits]
    return lasts(np.log1p(ratio), ratio / (1 + ratio), -np.log(1 - SHARE_AT_TURN), logs)


def twelve(z, area, volume, coating, undeveloped, carry, limits, chains):
    """Quantiles of the nine of twelve baths that use can end; z: [material, draw, 3], chains the material of each."""
    v = area * carry * np.exp(0.25 * z[..., 2])
    s = area * coating * np.exp(0.20 * z[..., 0]) * np.minimum(1, undeveloped * np.exp(0.15 * z[..., 1]))
    n = np.stack(forecast(volume, v[chains], s[chains], limits))
    at = [int(p * (n.shape[-1] - 1)) for p in (0.1, 0.5, 0.9)]
    n.partition(at, axis=-1)  # rounding down keeps the order, so three numbers a bath are rounded, not 4,000
    return np.floor(n[..., at]).astype(int)


def bench(draws=4000, rounds=20):
    column = lambda *x: np.array(x)[:, None]
    chains = (8 * 10 * 0.0254**2, column(2.0, 2.0, 1.0), column(1.5, 1.0), 0.7, column(0.15503, 0.035015), (2.0, 0.3),
              [0, 1, 1])  # FB, RC; both RC chains use the same draws
    rng = np.random.Generator(np.random.PCG64(1))

    def draw():
        return rng.standard_normal((2, draws, 3))

    z = draw()
    counted = best(lambda: twelve(z, *chains), rounds)
    whole = best(lambda: twelve(draw(), *chains), rounds)
    print(f"12 baths, {draws} draws, closed forms, best of {rounds}: {counted:.3f} ms with the normals at hand, "
          f"{whole:.3f} ms with drawing them")
    print("p10, p50, p90 of stop, first, second:", twelve(z, *chains).transpose(1, 0, 2).tolist())


def best(f, rounds):
    f()
    least = float("inf")
    for _ in range(rounds):
        start = time.perf_counter()
        f()
        least = min(least, time.perf_counter() - start)
    return least * 1000
