"""The worked figures of the model, the vectors of the titration and the ways the model must agree with itself."""
from fractions import Fraction

import numpy as np

import chemistry as ch
import closed
import model

SHEET = 8 * 10 * 0.0254**2  # m², 8×10 in
FILM = 158.0  # g/L thiosulfate, 200 mL/L of a 60 % concentrate of density 1.32 (the density from memory)


def drained(still, dripping, seconds=10.0, tau=5.0):
    return (still + (dripping - still) * np.exp(-seconds / tau)) / 1000


RC = {"area_m2": SHEET, "carry_l_per_m2": drained(25, 99), "coating_g_per_m2": 1.0, "undeveloped": 0.7}
FB = {"area_m2": SHEET, "carry_l_per_m2": drained(135, 283), "coating_g_per_m2": 1.5, "undeveloped": 0.7}
DRAWS, SEED = 200_000, 20
bad = []


def stop(litres):
    return {"kind": "stop", "volume_l": litres}


def fixer(litres, limit, thio=FILM):
    return {"kind": "fixer", "volume_l": litres, "thiosulfate_g_per_l": thio, "silver_limit_g_per_l": limit,
            "thiosulfate_least_share": 0.5}


def chain(material, *baths):
    developer = {"kind": "developer", "volume_l": baths[0]["volume_l"]}
    return {"baths": [developer, *baths], "film_strength_g_per_l": FILM, "material": material, "sheets": 0}


def say(ok, text):
    if not ok:
        bad.append(text)
    print("  ok " if ok else "MISS ", text)


def figure(name, got, stated, off=0):
    say(abs(got - stated) <= off, f"{name}: {got}, stated {stated}" + (f" (±{off} allowed)" if off else ""))


def by_draws(material, z, litres, limits, strength=1.0):
    v = model.values(material, z)
    carry = material["area_m2"] * v["carry_l_per_m2"]
    silver = material["area_m2"] * v["coating_g_per_m2"] * v["undeveloped"]
    return [np.floor(n).astype(int) for n in closed.forecast(litres, carry, silver, limits, strength)]


def median(request):
    zero = {name: [0.0] for name in model.SIGMA}
    c, b = model.counts(request, model.values(request["material"], zero))
    return [None if x is None else int(x[0]) for x in c], [None if x is None else x[0] for x in b]


def worked(z):
    print("worked figures: median parameters, then p10, p50, p90 of", DRAWS, "draws")
    cases = [  # name, material, litres, limits, strength, stated: median of first, p10, p90, which of the two baths
        ("RC 1 L, exhibition", RC, 1.0, (1.8,), 1.0, 47, 35, 64),
        ("FB 1 L, one bath, exhibition", FB, 1.0, (0.5,), 1.0, 8, 6, 12),
        ("FB 2 × 2 L, exhibition, either limit", FB, 2.0, (2.0, 0.3), 1.0, 64, 48, 85),
        ("FB 2 × 2 L, archival, either limit", FB, 2.0, (0.8, 0.05), 1.0, 27, None, None),
        ("FB 2 × 1 L, exhibition, either limit", FB, 1.0, (2.0, 0.3), 1.0, 32, 24, None),
        ("RC 1 L, exhibition, 1+9", RC, 1.0, (1.8,), 0.5, None, None, None),
        ("FB 1 L, exhibition, 1+9", FB, 1.0, (0.5,), 0.5, None, None, None),
    ]
    for name, material, litres, limits, strength, p, low, high in cases:
        one, binds = median(chain(material, stop(litres), *[fixer(litres, x, FILM * strength) for x in limits]))
        counts = by_draws(material, z, litres, limits, strength)[1:]
        either = np.minimum.reduce(counts)
        q = model.quantiles(either)
        print(f" {name}: fixers {one[2:]} by {binds[2:]}; quantiles {q}; each bath {[model.quantiles(c) for c in counts]}")
        if p is not None:
            figure(name + ", median parameters", min(one[2:]), p)
            figure(name + ", p50", q[1], p)
        if low is not None:
            figure(name + ", p10", q[0], low)
        if high is not None:
            figure(name + ", p90", q[2], high)
    archival_pair()
    one, _ = median(chain(FB, stop(1.0), fixer(1.0, 0.05)))
    print(f" FB 1 L archival in one bath, were there a limit of 0.05: {one[2]} (why there is none: never \"0 more\")")
    ratio = median(chain(RC, stop(1.0), fixer(1.0, 1.8, 79.0)))[0][2] / median(chain(RC, stop(1.0), fixer(1.0, 1.8)))[0][2]
    say(0.45 <= ratio <= 0.55, f"1+9 against 1+4, RC: {ratio:.3f} of the count, stated about half")


def archival_pair():
    request = chain(FB, stop(2.0), fixer(2.0, 0.8), fixer(2.0, 0.05))
    request["sheets"] = 33
    figure("FB 2 × 2 L, archival, the second alone", median(request)[0][3], 31)
    for row in model.trajectory(request)[30:]:
        ag, thio = row["silver_g_per_l"][3], row["thiosulfate_g_per_l"][3]
        print(f"   after {row['sheet']}: silver {ag:.5f} g/L, limit {0.05 * thio / FILM:.5f}")


def stop_bath(z):
    print("stop bath 2 L, FB, developer share at pH 5.2:", ch.SHARE_AT_TURN)
    one, _ = median(chain(FB, stop(2.0), fixer(2.0, 2.0)))
    q = model.quantiles(by_draws(FB, z, 2.0, (2.0,))[0])
    print(f" median parameters {one[1]}; quantiles {q}")
    figure("stop bath, median parameters (about)", one[1], 75, 1)
    figure("stop bath, p10 (about)", q[0], 55, 1)
    sb5 = [(2, 100, 4.67), (2, 140, 5.08), (2, 160, 5.35), (5, 20, 4.18), (5, 40, 4.67), (5, 60, 5.20), (5, 80, 5.98),
           (9, 10, 4.12), (9, 20, 4.57), (9, 40, 5.66)]
    for v, n, want in sb5:
        got = ch.ph_at_share(1 - (1 + v / 1000) ** -n)
        say(abs(got - want) <= 0.006, f"1 L, {v} mL a print, {n} prints: pH {got:.4f}, stated {want}")
    for name, got, want in [
        ("acetic 0.232", ch.ph([(ch.ACETIC, 0.232)], 0), 2.697),
        ("acetic 0.1 + acetate 0.1", ch.ph([(ch.ACETIC, 0.2)], 0.1), 4.650),
        ("carbonate 0.025/0.025", ch.ph([(ch.CARBONIC, 0.05)], 0.075), 10.053),
        ("phosphate 0.025/0.025", ch.ph([(ch.PHOSPHORIC, 0.05)], 0.075), 6.892),
        ("sodium sulfite 0.1", ch.ph([(ch.SULFUROUS, 0.1)], 0.2), 9.896),
    ]:
        say(abs(got - want) <= 0.002, f"{name}, 20 °C: pH {got:.4f}, stated {want}")


def published():
    print("published counts, dissolved silver and carry-over left out")
    figure("0.3 g/L, 30 sheets a US gallon: g a sheet", round(0.3 * 3.785411784 / 30, 5), 0.03785)
    figure("the same, g/m²", round(0.3 * 3.785411784 / 30 / SHEET, 3), 0.733)
    for limit, stated in [(0.5, (13.2, 8.1, 6.1)), (2.0, (52.9, 32.3, 24.2))]:
        for dissolved, want in zip((0.733, 1.2, 1.6), stated):
            figure(f"{limit} g/L at {dissolved} g/m²", round(limit / dissolved / SHEET, 1), want)
            m = dict(FB, carry_l_per_m2=1e-9, coating_g_per_m2=dissolved, undeveloped=1.0)
            got = median(chain(m, {"kind": "water", "volume_l": 100.0}, fixer(100.0, limit)))[0][2]
            say(abs(got / 100 - want) < 0.06, f"the model without carry-over, 100 L: {got}")
    figure("72 sheets per 64 US fl oz, a litre", round(72 / (64 * 0.0295735295625), 1), 38.0)
    figure("30 4×5 per 16 US fl oz, 8×10 a litre", round(30 / 4 / (16 * 0.0295735295625), 1), 15.9)
    figure("8 oz a 800 in², mL an 8×10", round(8 * 29.5735295625 / 10, 2), 23.66)


def agreement():
    print("the model against itself")
    worst = 0.0
    request = chain(FB, stop(2.0), fixer(2.0, 2.0), fixer(1.5, 0.3))
    request["sheets"] = 60
    rows, exact = model.trajectory(request), model.trajectory(request, Fraction)
    for name in ("silver_g_per_l", "thiosulfate_g_per_l", "developer_share", "own_share"):
        for a, b in zip(rows[-1][name], exact[-1][name]):
            worst = max(worst, abs(a - float(b)) / max(float(b), 1e-300))
    say(worst < 1e-12, f"floats against fractions after 60 sheets: {worst:.1e}")
    say(all(x == 0 for x in lost(request, exact[-1])), "silver, thiosulfate, liquid: in = in the baths + out, exactly")
    say(max(abs(x) for x in lost(request, rows[-1])) < 1e-11, "and in floats to 1e-11")
    z = model.normals(4000, 7)
    for name, m, limits, strength in [("FB", FB, (2.0, 0.3), 1.0), ("RC", RC, (1.8, 0.05), 1.0), ("RC", RC, (3.0, 0.5), 0.5)]:
        r = chain(m, stop(1.0), *[fixer(1.0, x, FILM * strength) for x in limits])
        steps = model.counts(r, model.values(m, z))[0][1:]
        forms = by_draws(m, z, 1.0, limits, strength)
        off = sum(int((a != b).sum()) for a, b in zip(steps, forms))
        say(off == 0, f"closed forms against sheet by sheet, {name} {limits} {strength}: {off} of 12,000 counts differ")


def lost(request, row):
    """Relative shortfall of silver, thiosulfate, all liquid and the developer's liquid."""
    number = type(row["dissolved_g"])
    volumes, out = row["volume_l"], row["carried_out"]
    begun = [number(b["volume_l"]) for b in request["baths"]]
    thio = [number(b.get("thiosulfate_g_per_l") or 0) for b in request["baths"]]
    held = lambda name: sum(v * c for v, c in zip(volumes, row[name]))
    pairs = [
        (row["dissolved_g"], held("silver_g_per_l") + out["silver_g"]),
        (sum(v * t for v, t in zip(begun, thio)), held("thiosulfate_g_per_l") + out["thiosulfate_g"]),
        (sum(begun), sum(volumes) + out["litres"]),
        (begun[0], held("developer_share") + out["developer_l"]),
    ]
    return [(a - b) / a for a, b in pairs]


def check():
    z = model.normals(DRAWS, SEED)
    worked(z)
    stop_bath(z)
    published()
    agreement()
    print(f"{len(bad)} figures did not come out" if bad else "all figures came out")
    for text in bad:
        print("  ", text)
    return 1 if bad else 0
