//! The shop's habits: gap, trim, relief, test strips.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{BrakeFile, CornerFile, Degrees, RollFile, Size};

/// The shop's habits.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ShopFile {
    /// Least distance between parts on a sheet; the cut runs in it.
    pub(crate) gap: Size,
    /// Strip at each edge of a sheet that is not used.
    pub(crate) edge_trim: Size,
    /// Width that the cut takes away, at most the gap. Zero when not given, as for a shear, which takes nothing away.
    pub(crate) kerf: Option<Size>,
    /// How sheets are cut. By hand when not given.
    pub(crate) cutting: Option<CuttingFile>,
    /// Distance from the middle of the cut to the guide that the saw or torch runs along. When not given, no place of
    /// the guide is printed.
    pub(crate) guide_offset: Option<Size>,
    /// True where one cut may serve two parts: matching straight edges then lie one kerf apart, and are cut once. Only for a saw
    /// whose cut is as straight on both sides. False when not given.
    #[serde(default)]
    pub(crate) shared_cuts: bool,
    /// Corner relief where bends meet. Square when not given.
    pub(crate) relief: Option<ReliefFile>,
    /// Diameter of round and tear-drop reliefs. By `relief_rule` when not given.
    pub(crate) relief_hole: Option<Size>,
    /// What that diameter goes by when it is not given: "handbook" or "zone". The handbook when not given.
    pub(crate) relief_rule: Option<ReliefRuleFile>,
    /// How corners are made, unless a part says otherwise. Open when not given.
    pub(crate) corner: Option<CornerFile>,
    /// Gap between the two plates at a corner. Zero when not given: they then touch.
    pub(crate) seam_gap: Option<Size>,
    /// Test strips that the shop has bent for this job. Those of the shop's log serve beside them.
    #[serde(default)]
    pub(crate) strips: Vec<Option<StripFile>>,
    /// The shop's log of test strips, from the folder of the job file. When not given: `bend-strips.jsonl` there, if
    /// there is one.
    #[schemars(length(min = 1, max = 400))]
    pub(crate) strip_log: Option<String>,
    /// The brake and its tooling.
    pub(crate) brake: Option<BrakeFile>,
    /// The slip roll for large radii.
    pub(crate) roll: Option<RollFile>,
    /// True refuses bends tighter than the least inside radius of the metal's table; else they are only pointed out.
    #[serde(default)]
    pub(crate) stop_below_least_radius: bool,
    /// Least width and length of a drop worth keeping. No drop is kept when not given.
    pub(crate) keep_drop: Option<[Size; 2]>,
    /// How long nests are looked for. The same job, evaluations and seed give the same nest on any machine.
    pub(crate) nesting: Option<NestingFile>,
}

/// How long nests are looked for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct NestingFile {
    /// Evaluations for every choice of sheets: looks at one part on one sheet. 10,000 when not given, a second or so for
    /// a boat's worth of parts; ten times as many sometimes save a sheet.
    #[schemars(range(min = 1, max = 1_000_000_000_000_u64))]
    pub(crate) evaluations: Option<u64>,
    /// Seed of all chance: another seed gives another nest, now and then a better one. 1 when not given.
    pub(crate) seed: Option<u64>,
}

/// How sheets are cut: "by hand", "shear", or a shear with its limits.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum CuttingFile {
    /// "by hand": with a saw, torch or router; parts lie as closely as their outlines allow. "shear": every part from a
    /// rectangular blank, every cut right through.
    Words(String),
    /// A shear with limits.
    Shear(ShearFile),
}

/// Limits of the shear.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ShearFile {
    /// The longest cut it makes.
    pub(crate) longest_cut: Size,
    /// The most rounds of cuts, each in one direction; trimming strips to their blanks counts, trimming the edges of the sheet does not. No
    /// limit when not given.
    #[schemars(range(min = 1, max = 20))]
    pub(crate) rounds: Option<u32>,
}

/// Corner relief.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ReliefFile {
    /// None: the flanges' edges meet where the bend lines cross. In thin sheet only; the corner bulges or tears.
    None,
    /// A sawn notch to where the inside tangent lines cross.
    Square,
    /// A drilled hole about that crossing.
    Round,
    /// The hole, and straight sides that touch it and run out to where the flanges' edges begin.
    TearDrop,
}

/// What the diameter of a relief hole goes by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ReliefRuleFile {
    /// Twice the larger inside radius of the two bends, and 1/8 in at least in sheet up to .064 in, 3/16 in above.
    Handbook,
    /// The width of the wider of the two bend zones: the hole reaches both bend lines.
    Zone,
}

/// A test strip: cut it, bend it once across, measure both legs outside.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StripFile {
    /// The metal it was cut from. It bends to that metal's inside radius.
    pub(crate) metal: String,
    /// Length of the strip before bending.
    pub(crate) length: Size,
    /// Both legs after bending, outside.
    pub(crate) legs: [Size; 2],
    /// Turn from flat on the bench. 90 when not given.
    pub(crate) turn: Option<Degrees>,
    /// Turn in the die before it sprang back.
    pub(crate) turn_in_die: Option<Degrees>,
    /// When it was bent: "2026-03-04".
    pub(crate) date: Option<String>,
}
