//! Folded parts, bend numbers, flat patterns and the refold proof.
