//! Rules that a part must pass before it is cut, one file each under `rules`.
//!
//! A rule looks at the folded part and its flat and changes nothing. What it finds either stops the part or is printed
//! with it as a caution.

pub mod fit;

mod finding;
mod limits;
mod rules;
mod subject;

pub use finding::{Finding, Severity};
pub use limits::{Limits, MetalName, NoLeastRadius};
pub use rules::narrow_cut::slit_cut_words;
pub use rules::short_flange::NAME as SHORT_FLANGE;
pub use subject::Subject;

/// A rule: looks at a part, adds what it finds.
type Rule = fn(&Subject<'_>, &mut Vec<Finding>);

/// Every rule, in the order in which findings are printed.
const RULES: [(&str, Rule); 18] = [
    (rules::hole_place::NAME, rules::hole_place::look),
    (rules::holes_apart::NAME, rules::holes_apart::look),
    (rules::short_flange::NAME, rules::short_flange::look),
    (rules::long_bend::NAME, rules::long_bend::look),
    (rules::inside_radius::NAME, rules::inside_radius::look),
    (rules::hem_temper::NAME, rules::hem_temper::look),
    (rules::unknown_radius::NAME, rules::unknown_radius::look),
    (rules::past_nearest_radius::NAME, rules::past_nearest_radius::look),
    (rules::corner_relief::NAME, rules::corner_relief::look),
    (rules::die_radius::NAME, rules::die_radius::look),
    (rules::tonnage::NAME, rules::tonnage::look),
    (rules::rolling::NAME, rules::rolling::look),
    (rules::bend_order::NAME, rules::bend_order::look),
    (rules::large_turn::NAME, rules::large_turn::look),
    (rules::thin_web::NAME, rules::thin_web::look),
    (rules::narrow_cut::NAME, rules::narrow_cut::look),
    (rules::slight_size::NAME, rules::slight_size::look),
    (rules::heavy_part::NAME, rules::heavy_part::look),
];

/// Names of all rules.
pub fn rule_names() -> impl Iterator<Item = &'static str> {
    RULES.iter().map(|(name, _)| *name)
}

/// Looks at a part by every rule.
#[must_use]
pub fn check(subject: &Subject<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (_, look) in RULES {
        look(subject, &mut findings);
    }
    findings
}
