"""Writes pynite.csv: beams solved by PyNiteFEA 3.2.0, a general finite-element library for frames.

    python3 -m venv env && env/bin/pip install PyNiteFEA==3.2.0 && env/bin/python pynite.py > pynite.csv

Newtons and metres. A beam is cut at every support, load end and asked station, so every value is nodal and exact
but for rounding. Columns: the beam's name, what (reaction, moment or deflection), where, value. Reactions are up,
moments sagging and deflections down positive.
"""

from Pynite import FEModel3D

E, I = 9.0e9, 4.0e-5

# name: length, supports [(station, settlement, rate or None)], loads [(from, to, w_from, w_to)], asked stations
BEAMS = {
    "two spans with overhangs": (
        3.3528,
        [(0.1524, 0.0, None), (1.6764, 0.0, None), (3.2004, 0.0, None)],
        [(0.0, 3.3528, 6520.0, 4066.0)],
        [0.0, 0.8, 1.6764, 2.5, 3.3528],
    ),
    "five supports under a triangle": (
        3.8354,
        [(0.3556, 0.0, None), (1.1684, 0.0, None), (1.8796, 0.0, None), (2.6416, 0.0, None), (3.4036, 0.0, None)],
        [(0.0, 2.9, 9000.0, 0.0)],
        [0.0, 0.75, 1.5, 2.25, 3.0, 3.8354],
    ),
    "one settled and one elastic": (
        4.0,
        [(0.5, 0.0, None), (1.5, 0.002, None), (2.75, 0.0, 4.0e5), (3.8, 0.0, None)],
        [(0.2, 3.9, 3000.0, 5500.0)],
        [0.0, 1.0, 2.0, 3.25, 4.0],
    ),
}


def solve(length, supports, loads, asked):
    cuts = {0.0, length, *asked}
    cuts.update(station for station, _, _ in supports)
    for start, end, _, _ in loads:
        cuts.update((start, end))
    cuts = sorted(cuts)
    model = FEModel3D()
    model.add_material("wood", E, E / 2.6, 0.3, 1.0)
    model.add_section("board", 1.0, 1.0, I, 1.0)
    name = {x: f"N{i}" for i, x in enumerate(cuts)}
    for x, node in name.items():
        model.add_node(node, x, 0.0, 0.0)
    for i, (a, b) in enumerate(zip(cuts, cuts[1:])):
        model.add_member(f"M{i}", name[a], name[b], "wood", "board")
    # Everything but deflection and slope in the plane is held.
    for i, node in enumerate(name.values()):
        model.def_support(node, i == 0, False, True, True, True, False)
    springs = {}
    for station, settlement, rate in supports:
        node = name[station]
        if rate is None:
            model.def_support(node, node == "N0", True, True, True, True, False)
            model.def_node_disp(node, "DY", -settlement)
        else:
            model.def_support_spring(node, "DY", rate, "-")
            springs[station] = rate
    for start, end, w_start, w_end in loads:
        for i, (a, b) in enumerate(zip(cuts, cuts[1:])):
            if a >= start and b <= end:
                at = lambda x: w_start + (w_end - w_start) * (x - start) / (end - start)
                model.add_member_dist_load(f"M{i}", "FY", -at(a), -at(b))
    model.analyze_linear()
    rows = []
    for station, _, rate in supports:
        node = model.nodes[name[station]]
        value = -rate * node.DY["Combo 1"] if rate else node.RxnFY["Combo 1"]
        rows.append(("reaction", station, value))
    for x in asked:
        i = max(cuts.index(x) - 1, 0)
        member = model.members[f"M{i}"]
        along = x - cuts[i]
        # This library counts hogging positive.
        rows.append(("moment", x, -member.moment("Mz", along, "Combo 1")))
        rows.append(("deflection", x, -model.nodes[name[x]].DY["Combo 1"]))
    return rows


print("beam,what,station,value")
for name, beam in BEAMS.items():
    for what, station, value in solve(*beam):
        print(f"{name},{what},{station!r},{float(value)!r}")
