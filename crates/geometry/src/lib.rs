//! Planar outlines with holes and arcs, 3D frames, no-fit polygons and every tolerance.
