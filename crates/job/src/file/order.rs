//! The order to the supplier: what goes on it beside the sheets.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Named;

/// What an order says beside the sheets. What is not given is left blank to fill in, and asked for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OrderFile {
    /// Who it goes to.
    #[schemars(length(min = 1, max = 120))]
    pub(crate) supplier: Option<String>,
    /// The shop's number for it.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) number: Option<String>,
    /// Where it is delivered.
    #[schemars(length(min = 1, max = 200))]
    pub(crate) deliver_to: Option<String>,
    /// Whom the driver calls.
    #[schemars(length(min = 1, max = 120))]
    pub(crate) contact: Option<String>,
    /// The last day it is of use: "2026-04-01".
    pub(crate) wanted_by: Option<String>,
    /// How it comes off the truck: "by hand from a tail lift", "fork lift, 3000 lb".
    #[schemars(length(min = 1, max = 120))]
    pub(crate) unloading: Option<String>,
    /// Most that one pack may weigh: "1500 lb". The order is split into packs by the supplier.
    pub(crate) heaviest_pack: Option<String>,
    /// What the sheets lie on.
    pub(crate) packed: Option<PackedFile>,
    /// What lies between the sheets.
    pub(crate) interleaf: Option<InterleafFile>,
    /// Which way the film lies in the pack, of sheet with film on one side.
    pub(crate) film_side: Option<FilmSideFile>,
    /// Whether the mill's certificate comes with it.
    pub(crate) certificate: Option<bool>,
    /// Tolerances of a metal in the shop's own words, in place of the standard's name, by the metal's name.
    #[serde(default)]
    pub(crate) tolerances: Named<String>,
}

/// What sheets lie on when they are delivered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum PackedFile {
    /// Flat on a skid as long and wide as they are, strapped, edges guarded.
    #[serde(rename = "on skids")]
    OnSkids,
    /// Loose.
    #[serde(rename = "loose")]
    Loose,
}

/// What lies between sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum InterleafFile {
    /// Paper.
    Paper,
    /// Foam.
    Foam,
    /// Nothing.
    None,
}

/// Which way film lies in the pack.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum FilmSideFile {
    /// Up.
    Up,
    /// Down.
    Down,
}
