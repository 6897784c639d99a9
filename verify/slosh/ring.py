"""Lowest modes with one nodal diameter of a liquid in an upright cylinder with a ring, by bilinear elements.

In the plane of radius and height, for `phi(r, z) cos(theta)`: the integral of `(phi_r psi_r + phi_z psi_z + phi psi / r^2) r` is `lambda` times
that of `phi psi r` over the surface. The mesh is graded towards the ring's edge until its singularity is within 1e-4, and the ring is a
slit with nodes on both sides. Prints lambda times the radius: `python3 verify/slosh/ring.py`.
"""

import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as sl


def graded(low, high, edges, cells):
    """Points from `low` to `high` through `edges`, closest by geometric steps where the edges are."""
    points = sorted({low, high, *edges})
    lines = [low]
    for a, b in zip(points, points[1:]):
        share = np.linspace(0.0, 1.0, cells + 1)[1:]
        near_a, near_b = a in edges, b in edges
        if near_a and near_b:
            share = np.where(share < 0.5, 0.5 * (2 * share) ** 3, 1 - 0.5 * (2 - 2 * share) ** 3)
        elif near_a:
            share = share**3
        elif near_b:
            share = 1 - (1 - share) ** 3
        lines.extend(a + (b - a) * share)
    return np.array(lines)


def modes(depth, below, width, cells, count=2):
    """Lambda of a cylinder of radius one, the ring `below` the surface and `width` wide; no ring where that is zero."""
    edge, level = 1.0 - width, depth - below
    ring = width > 0.0
    r = graded(0.0, 1.0, [edge] if ring else [], cells)
    z = graded(0.0, depth, [level] if ring else [], cells)
    nr, nz = len(r), len(z)
    lower = np.arange(nr * nz).reshape(nz, nr)
    upper, total = lower.copy(), nr * nz
    if ring:
        row = int(np.argmin(abs(z - level)))
        slit = np.where(r > edge + 1e-12)[0]
        upper[row, slit] = total + np.arange(len(slit))
        total += len(slit)
    points, weights = np.polynomial.legendre.leggauss(3)
    points, weights = (points + 1) / 2, weights / 2
    rows, columns, values = [], [], []
    for k in range(nz - 1):
        # The elements above the slit have its upper nodes below them.
        above = ring and k == row
        floor = upper if above else lower
        for i in range(nr - 1):
            nodes = [floor[k, i], floor[k, i + 1], lower[k + 1, i], lower[k + 1, i + 1]]
            dr, dz = r[i + 1] - r[i], z[k + 1] - z[k]
            element = np.zeros((4, 4))
            for s, ws in zip(points, weights):
                for t, wt in zip(points, weights):
                    radius = r[i] + s * dr
                    shape = np.array([(1 - s) * (1 - t), s * (1 - t), (1 - s) * t, s * t])
                    by_r = np.array([-(1 - t), 1 - t, -t, t]) / dr
                    by_z = np.array([-(1 - s), -s, 1 - s, s]) / dz
                    part = np.outer(by_r, by_r) + np.outer(by_z, by_z) + np.outer(shape, shape) / radius**2
                    element += ws * wt * dr * dz * radius * part
            for a in range(4):
                for b in range(4):
                    rows.append(nodes[a]); columns.append(nodes[b]); values.append(element[a, b])
    stiffness = sp.csc_matrix((values, (rows, columns)), shape=(total, total))
    mass = sp.lil_matrix((total, total))
    for i in range(nr - 1):
        nodes, dr = [lower[-1, i], lower[-1, i + 1]], r[i + 1] - r[i]
        for s, ws in zip(points, weights):
            shape = np.array([1 - s, s])
            for a in range(2):
                for b in range(2):
                    mass[nodes[a], nodes[b]] += ws * dr * (r[i] + s * dr) * shape[a] * shape[b]
    # On the axis the potential is zero.
    free = np.setdiff1d(np.arange(total), lower[:, 0])
    stiffness, mass = stiffness[free][:, free].tocsc(), mass.tocsc()[free][:, free]
    found = sl.eigsh(stiffness, k=count, M=mass, sigma=0.5, which="LM", return_eigenvectors=False)
    return np.sort(found)


if __name__ == "__main__":
    print("no ring", modes(1.0, 0.0, 0.0, 60), "closed", 1.8411838 * np.tanh(1.8411838))
    for below, width in [(0.2, 0.2), (0.1, 0.3), (0.3, 0.4)]:
        print(below, width, [modes(1.0, below, width, cells) for cells in (20, 40, 80)])
