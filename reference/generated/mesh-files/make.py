"""Writes small mesh files of closed solids with two general-purpose libraries, and what one of them reads back. Needs trimesh, meshio, scipy.

    python3 reference/generated/mesh-files/make.py

Three solids: a cuboid with three different sides, a cylinder of 12 sides, an angle (L) without symmetry; all dimensions in their
own unit, off their datum. The scene hangs the angle three times: as drawn, under two turned and shifted nodes one below the other,
and under a node that mirrors and stretches.
"""
import json
import os
import re
import meshio
import numpy as np
import trimesh
from scipy.spatial.transform import Rotation
from trimesh.transformations import rotation_matrix, translation_matrix

HERE = os.path.dirname(os.path.abspath(__file__))


def cuboid():
    box = trimesh.creation.box(extents=(3, 2, 0.5))
    box.apply_translation((10, -1, 0.75))
    return box


def cylinder():
    round_ = trimesh.creation.cylinder(radius=0.4, height=2.5, sections=12)
    round_.apply_transform(rotation_matrix(0.7, (1, 2, 0.5), (0, 0, 0)))
    round_.apply_translation((-4, 3, 1.5))
    return round_


def angle():
    """An L of legs 4 and 2, thickness 1, extruded by 0.5: two convex halves of its outline, so that no library needs to cut it up."""
    outline = [(0, 0), (4, 0), (4, 1), (1, 1), (1, 2), (0, 2)]
    caps = [(0, 1, 2), (0, 2, 3), (0, 3, 4), (0, 4, 5)]
    n = len(outline)
    points = [(x, y, z) for z in (0, 0.5) for x, y in outline]
    faces = [(c, b, a) for a, b, c in caps] + [(a + n, b + n, c + n) for a, b, c in caps]
    for i in range(n):
        j = (i + 1) % n
        faces += [(i, j, j + n), (i, j + n, i + n)]
    return trimesh.Trimesh(points, faces, process=False)


def scene():
    world = trimesh.Scene()
    world.add_geometry(angle(), node_name="drawn", geom_name="angle")
    arm = translation_matrix((5, -2, 1)) @ rotation_matrix(0.6, (1, 2, 3))
    hand = translation_matrix((0, 3, 0.25)) @ rotation_matrix(-1.1, (0, 1, 0.2))
    world.graph.update(frame_to="arm", frame_from="world", matrix=arm)
    world.graph.update(frame_to="hand", frame_from="arm", matrix=hand, geometry="angle")
    mirror = translation_matrix((0, -4, 0)) @ np.diag([1.5, -1, 1, 1])
    world.graph.update(frame_to="mirrored", frame_from="world", matrix=mirror, geometry="angle")
    return world


def write(name, data):
    with open(os.path.join(HERE, name), "wb") as out:
        out.write(data if isinstance(data, bytes) else data.encode())


def by_meshio(name, mesh, **options):
    meshio.Mesh(mesh.vertices, [("triangle", mesh.faces)]).write(os.path.join(HERE, name), **options)
    if name.endswith(".obj"):
        text = open(os.path.join(HERE, name)).read()
        # The writer's comment tells the time; without it the file is the same every time.
        write(name, re.sub(r"^(# Created by meshio [^,]*),.*", r"\1", text))


def with_parts(document):
    """The same nodes by translation, rotation and scale in place of a matrix; scipy makes the quaternion."""
    for node in document["nodes"]:
        if "matrix" not in node:
            continue
        matrix = np.array(node.pop("matrix")).reshape(4, 4).T
        linear = matrix[:3, :3]
        scale = np.linalg.norm(linear, axis=0)
        if np.linalg.det(linear) < 0:
            scale[1] = -scale[1]
        node["translation"] = matrix[:3, 3].tolist()
        node["rotation"] = Rotation.from_matrix(linear / scale).as_quat().tolist()
        node["scale"] = scale.tolist()
    return document


def read_back(name, writer):
    loaded = trimesh.load(os.path.join(HERE, name), process=False)
    mesh = loaded.to_geometry() if isinstance(loaded, trimesh.Scene) else loaded
    merged = mesh.copy()
    # Joining corners is only for the question whether the surface is closed.
    merged.merge_vertices(merge_tex=True, merge_norm=True, digits_vertex=5)
    return {
        "file": name,
        "writer": writer,
        "triangles": len(mesh.faces),
        "closed": bool(merged.is_watertight),
        "volume": float(mesh.volume),
        "area": float(mesh.area),
        "bounds": mesh.bounds.tolist(),
        "centroid": mesh.center_mass.tolist(),
    }


if __name__ == "__main__":
    made = []
    for name, mesh in (("cuboid", cuboid()), ("cylinder", cylinder()), ("angle", angle())):
        write(f"{name}.text.stl", mesh.export(file_type="stl_ascii"))
        write(f"{name}.binary.stl", mesh.export(file_type="stl"))
        write(f"{name}.obj", mesh.export(file_type="obj"))
        made += [(f"{name}.text.stl", "trimesh"), (f"{name}.binary.stl", "trimesh"), (f"{name}.obj", "trimesh")]
        by_meshio(f"{name}.other.text.stl", mesh, binary=False)
        by_meshio(f"{name}.other.binary.stl", mesh, binary=True)
        by_meshio(f"{name}.other.obj", mesh)
        made += [(f"{name}.other.{end}", "meshio") for end in ("text.stl", "binary.stl", "obj")]
    write("cuboid.glb", cuboid().export(file_type="glb"))
    write("angles.glb", scene().export(file_type="glb"))
    files = trimesh.exchange.gltf.export_gltf(scene(), merge_buffers=True)
    for name, data in files.items():
        text = data.replace(b"gltf_buffer_0.bin", b"angles.bin").replace(b"gltf_buffer.bin", b"angles.bin")
        write("angles.gltf" if name.endswith(".gltf") else "angles.bin", text)
    plain = json.load(open(os.path.join(HERE, "angles.gltf")))
    write("angles.parts.gltf", json.dumps(with_parts(plain)))
    made += [("cuboid.glb", "trimesh"), ("angles.glb", "trimesh"), ("angles.gltf", "trimesh"), ("angles.parts.gltf", "trimesh")]
    found = [read_back(*each) for each in made]
    for each in found:
        print(each)
    with open(os.path.join(HERE, "values.json"), "w") as out:
        out.write(json.dumps({"trimesh": trimesh.__version__, "meshio": meshio.__version__, "files": found}, indent=1) + "\n")
