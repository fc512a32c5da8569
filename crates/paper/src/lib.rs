//! A neutral page, drawings, lists and thin writers for SVG, HTML and plain outlines.
