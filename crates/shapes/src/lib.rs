//! Recipes that turn shop sizes into folded parts, one file each.
