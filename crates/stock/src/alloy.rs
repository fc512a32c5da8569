//! Alloys: names, tempers and densities.

use crate::table;
use serde::Deserialize;
use std::sync::LazyLock;
use units::{Density, ReadError};

static ALLOYS: LazyLock<Vec<Alloy>> =
    LazyLock::new(|| table::load(include_str!("../data/alloys.json"), Alloy::from_row));

/// The longest piece of a wrong name that a message repeats.
const LONGEST_SHOWN: usize = 40;

/// Metals that share their habits in bending.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Family {
    /// Aluminium and its alloys.
    #[serde(rename = "aluminium")]
    Aluminium,
    /// Mild, carbon and galvanised steel.
    #[serde(rename = "mild steel")]
    MildSteel,
    /// Stainless steel.
    #[serde(rename = "stainless steel")]
    StainlessSteel,
    /// A metal that the job describes and the tables do not.
    #[serde(skip)]
    Unlisted,
}

/// An alloy as one table row has it.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Alloy {
    /// The name by which it is ordered, like `5052`.
    pub name: String,
    /// Other names that are understood.
    pub aliases: Vec<String>,
    /// What it bends like.
    pub family: Family,
    /// The nominal density. Grams in a cubic centimetre are the primary column: pounds in a cubic inch are printed
    /// elsewhere to three places, which would shift weights by up to half a per cent.
    pub density: Density,
    /// Tempers of sheet.
    pub tempers: Vec<String>,
    /// Where the row comes from and how it was got.
    pub source: String,
}

/// An alloy and its temper, as found from `5052-H32`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AlloyTemper {
    /// The alloy's row.
    pub alloy: &'static Alloy,
    /// The temper, if one was named.
    pub temper: Option<&'static str>,
}

/// Why no alloy was found.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AlloyError {
    /// The table has no such alloy.
    #[error("no alloy `{name}` is known; known are {known}")]
    UnknownAlloy {
        /// The name as given.
        name: String,
        /// All names, with commas between.
        known: String,
    },
    /// The alloy has no such temper.
    #[error("no temper `{temper}` of {alloy} is known; known are {known}")]
    UnknownTemper {
        /// The alloy.
        alloy: String,
        /// The temper as given.
        temper: String,
        /// All its tempers, with commas between.
        known: String,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: String,
    aliases: Vec<String>,
    family: Family,
    density: String,
    tempers: Vec<String>,
    source: String,
}

/// Every alloy in the table.
#[must_use]
pub fn alloys() -> &'static [Alloy] {
    &ALLOYS
}

/// Finds `5052`, `5052-H32`, `5052 h32` or `mild steel`, small letters or large.
///
/// # Errors
/// [`AlloyError`], with the names that are known.
pub fn find_alloy(text: &str) -> Result<AlloyTemper, AlloyError> {
    let given = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if let Some(alloy) = find_name(&given) {
        return Ok(AlloyTemper { alloy, temper: None });
    }
    let split = given
        .rsplit_once(['-', ' '])
        .and_then(|(name, temper)| Some((find_name(name.trim_end_matches([' ', '-']))?, temper.trim())));
    let Some((alloy, temper)) = split else {
        return Err(AlloyError::UnknownAlloy {
            name: shown(&given),
            known: names(alloys().iter().map(|a| &a.name)),
        });
    };
    let found = alloy.tempers.iter().find(|known| known.eq_ignore_ascii_case(temper));
    let found = found.ok_or_else(|| AlloyError::UnknownTemper {
        alloy: alloy.name.clone(),
        temper: shown(temper),
        known: if alloy.tempers.is_empty() { "none".to_owned() } else { names(alloy.tempers.iter()) },
    })?;
    Ok(AlloyTemper { alloy, temper: Some(found) })
}

impl Alloy {
    /// An alloy that the job describes itself.
    #[must_use]
    pub fn unlisted(name: &str, density: Density) -> Self {
        Self {
            name: name.to_owned(),
            aliases: Vec::new(),
            family: Family::Unlisted,
            density,
            tempers: Vec::new(),
            source: "given by the job".to_owned(),
        }
    }

    fn from_row(row: Row) -> Result<Self, ReadError> {
        let density = Density::read(&row.density)?;
        let Row { name, aliases, family, tempers, source, .. } = row;
        Ok(Self { name, aliases, family, density, tempers, source })
    }
}

fn find_name(name: &str) -> Option<&'static Alloy> {
    let is_called = |alloy: &&Alloy| {
        alloy.name.eq_ignore_ascii_case(name)
            || alloy.aliases.iter().any(|alias| alias.eq_ignore_ascii_case(name))
    };
    alloys().iter().find(is_called)
}

fn names<'a>(names: impl Iterator<Item = &'a String>) -> String {
    names.map(String::as_str).collect::<Vec<_>>().join(", ")
}

fn shown(text: &str) -> String {
    let mut shown: String = text.chars().filter(|c| !c.is_control()).take(LONGEST_SHOWN).collect();
    if text.chars().count() > LONGEST_SHOWN {
        shown.push('…');
    }
    shown
}
