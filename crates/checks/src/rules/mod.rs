//! The rules, and the distances between rings that they share.

pub(crate) mod apart;

pub(crate) mod bend_order;
pub(crate) mod corner_relief;
pub(crate) mod die_radius;
pub(crate) mod heavy_part;
pub(crate) mod hem_temper;
pub(crate) mod hole_place;
pub(crate) mod holes_apart;
pub(crate) mod inside_radius;
pub(crate) mod large_turn;
pub(crate) mod long_bend;
pub(crate) mod narrow_cut;
pub(crate) mod past_nearest_radius;
pub(crate) mod rolling;
pub(crate) mod short_flange;
pub(crate) mod slight_size;
pub(crate) mod thin_web;
pub(crate) mod tonnage;
pub(crate) mod unknown_radius;
