"""Reach of a tool and an arm in fifty random part-built boxes.

Judge: `coal`, a collision library. Input: JSON lines on standard input, from the example `part_built_boxes` of
brimful-reach.

1. Every place comes with the pose that runs into the fewest plates, and with their numbers: of a place that is called reached with
   none. No solid of it may touch another plate that stands. None may fail.
2. Every place that is called out of reach is tried with random poses here: how many of them are reached after all is
   reported; it is how often the finite set of poses is too strict. More than one in ten would make it useless.
"""

import json
import math
import sys

import coal
import numpy as np

# Poses tried at a place that is called out of reach.
POSES = 4000
# Placed solids are put against each other in double precision; the library's own distances are good to about this, m.
ROUNDING = 1e-6
# Ours may be too strict at so many of all places before it counts as a fault.
TOO_STRICT = 0.1


def capsule(start, end, radius):
    start, end = np.array(start), np.array(end)
    way = end - start
    length = float(np.linalg.norm(way))
    z = way / length if length > 1e-9 else np.array([0.0, 0.0, 1.0])
    x = np.cross(z, [1.0, 0.0, 0.0] if abs(z[0]) < 0.9 else [0.0, 1.0, 0.0])
    x /= np.linalg.norm(x)
    turn = np.column_stack([x, np.cross(z, x), z])
    return coal.CollisionObject(coal.Capsule(radius, length), turn, (start + end) / 2.0)


def box(low, high):
    low, high = np.array(low), np.array(high)
    return coal.CollisionObject(coal.Box(*(high - low)), np.eye(3), (low + high) / 2.0)


def holed(low, high, hatch):
    """The plate as wedges round the hole: convex pieces, each from one side of the hole's polygon to the plate's edge."""
    x, y, radius = hatch
    corners = [x + 1j * y + radius * np.exp(1j * (math.tau * i / 32)) for i in range(33)]
    pieces = []
    for a, b in zip(corners, corners[1:]):
        out = [to_edge(c, x + 1j * y, low, high) for c in (a, b)]
        flat = [a, b, out[1], out[0]]
        # Where two rays end on different edges the corner between them belongs to the piece.
        for corner in (complex(u, v) for u in (low[0], high[0]) for v in (low[1], high[1])):
            s = [np.imag(np.conj(end - (x + 1j * y)) * (corner - (x + 1j * y))) for end in out]
            if s[0] > 0 > s[1]:
                flat.append(corner)
        points = [[p.real, p.imag, z] for p in flat for z in (low[2], high[2])]
        cloud = coal.StdVec_Vec3s()
        for point in points:
            cloud.append(np.array(point))
        hull = coal.Convex.convexHull(cloud, False, "")
        pieces.append(coal.CollisionObject(hull, np.eye(3), np.zeros(3)))
    return pieces


def to_edge(at, middle, low, high):
    way = at - middle
    ends = []
    for part, step, l, h in ((at.real, way.real, low[0], high[0]), (at.imag, way.imag, low[1], high[1])):
        if abs(step) > 1e-12:
            ends.append(((h if step > 0 else l) - part) / step)
    return at + way * min(ends)


class Scene:
    def __init__(self, case):
        self.low = np.min([c[0] for c in case["plates"]], axis=0)
        self.high = np.max([c[1] for c in case["plates"]], axis=0)
        self.clearance = case["clearance"]
        self.solids = []
        for number in case["standing"]:
            low, high = case["plates"][number]
            pieces = holed(low, high, case["hatch"]) if number == 1 and case["hatch"] else [box(low, high)]
            self.solids += [(number, piece) for piece in pieces]

    def is_clear(self, start, end, radius, but=()):
        solid = capsule(start, end, radius)
        request = coal.CollisionRequest()
        for number, plate in self.solids:
            if number in but:
                continue
            result = coal.CollisionResult()
            if coal.collide(solid, plate, request, result):
                return False
        return True

    def way_out(self, at, line):
        with np.errstate(divide="ignore", invalid="ignore"):
            far = np.where(line > 0, (self.high - at) / line, np.where(line < 0, (self.low - at) / line, np.inf))
        return max(float(np.min(far)), 0.0)

    def is_outside(self, at, radius):
        margin = radius + self.clearance
        return bool(np.any(at < self.low - margin) or np.any(at > self.high + margin))


def unit(random):
    way = random.normal(size=3)
    return way / np.linalg.norm(way)


def within(random, axis, most):
    """A random direction that makes at most this angle with an axis."""
    while True:
        way = unit(random)
        if way @ axis >= math.cos(most):
            return way


def parts(at, line, each):
    return [(at + line * a, at + line * b, r) for a, b, r in each]


def free(scene, solids):
    return all(scene.is_clear(a, b, r + scene.clearance) for a, b, r in solids)


# The plates that meet at the line, along it, and the middle between them.
LINE = (0, 2)
ALONG, OUT = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 1.0]) / math.sqrt(2.0)


def hand_gets_there(scene, case, at, random):
    """Whether one random pose of gun and arm is free."""
    way = random.choice([1.0, -1.0])
    lean = random.uniform(min(case["leans"]), max(case["leans"]))
    tilt = random.uniform(min(case["tilts"]), max(case["tilts"]))
    out = OUT * math.cos(tilt) + np.cross(ALONG, OUT) * math.sin(tilt)
    axis = out * math.sin(lean) - ALONG * way * math.cos(lean)
    if not free(scene, parts(at, axis, case["shaft"])):
        return False
    foot = parts(at + OUT * case["foot_height"], ALONG * way, case["foot"])
    if not all(scene.is_clear(a, b, r + scene.clearance, LINE) for a, b, r in foot):
        return False
    arm = case["arm"]
    grip = at + axis * case["grip"]

    def out_within_reach(inside, outside):
        line = outside - inside
        length = np.linalg.norm(line)
        far = min(scene.way_out(inside, line / length), length)
        return np.linalg.norm(inside + line / length * far - at) <= arm["reach"]

    if scene.is_outside(grip, arm["hand"]):
        return out_within_reach(at, grip)
    toward = within(random, axis, arm["wrist"])
    elbow = grip + toward * arm["forearm"]
    if not free(scene, [(grip, elbow, arm["forearm_radius"])]):
        return False
    if scene.is_outside(elbow, arm["forearm_radius"]):
        return out_within_reach(grip, elbow)
    on = within(random, toward, arm["elbow"])
    shoulder = elbow + on * arm["upper_arm"]
    if not free(scene, [(elbow, shoulder, arm["upper_arm_radius"])]):
        return False
    if scene.is_outside(shoulder, arm["upper_arm_radius"]):
        return out_within_reach(elbow, shoulder)
    line = random.choice([1.0, -1.0]) * np.eye(3)[random.integers(3)]
    far = scene.way_out(shoulder, line)
    return far <= arm["lean_in"] and free(scene, [(shoulder, shoulder + line * far, arm["body_radius"])])


def is_fed_and_seen(scene, case, at, random):
    leans = np.linspace(-case["feed_lean"], case["feed_lean"], 7)
    outs = [OUT * math.cos(t) + np.cross(ALONG, OUT) * math.sin(t) for t in case["tilts"]]
    lines = [out * math.cos(a) + ALONG * math.sin(a) for a in leans for out in outs]
    if not any(free(scene, parts(at, line, case["feed"])) for line in lines):
        return False
    sight = case["sight"]
    start = at + OUT * 4.0 * (sight["radius"] + scene.clearance)
    for _ in range(400):
        line = unit(random)
        far = max(scene.way_out(start, line), sight["least"])
        near = start + line * sight["least"]
        if free(scene, [(start, start + line * far, sight["radius"])]):
            return True
        if free(scene, [(start, near, sight["radius"]), (near, start + line * far, sight["head"])]):
            return True
    return False


def main():
    random = np.random.default_rng(17)
    reached = strict = count = solids = 0
    for line in sys.stdin:
        case = json.loads(line)
        scene, at = Scene(case), np.array(case["at"])
        count += 1
        assert (not case["runs_into"]) == case["reached"], f"case {count}: a verdict without its pose"
        assert case["pose"], f"case {count}: no pose"
        reached += case["reached"]
        for number, (start, end, radius) in enumerate(case["pose"]):
            solids += 1
            # The foot, which comes first, runs in the groove between the line's own plates.
            own = LINE if number < len(case["foot"]) else ()
            is_clear = scene.is_clear(start, end, radius + scene.clearance - ROUNDING, (*own, *case["runs_into"]))
            assert is_clear, f"case {count}: {start} to {end} is called clear"
        if not case["reached"] and is_fed_and_seen(scene, case, at, random):
            strict += any(hand_gets_there(scene, case, at, random) for _ in range(POSES))
    assert count > 0, "no case was read"
    assert 0.2 * count < reached < 0.9 * count, f"{reached} of {count} reached: not a test of both"
    assert strict <= TOO_STRICT * count, f"too strict at {strict} of {count}"
    print(
        f"check_reach: {count} places, {reached} reached; {solids} solids of poses touch nothing but what they are said to; "
        f"{strict} of {count - reached} called out of reach are reached by a finer search"
    )


if __name__ == "__main__":
    main()
