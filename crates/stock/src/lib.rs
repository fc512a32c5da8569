//! Alloys, sheet sizes, tread plate and inside radii, each row with its source.
