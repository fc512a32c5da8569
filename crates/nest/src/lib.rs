//! Placing outlines on sheets, with bounds and an independent verifier.
