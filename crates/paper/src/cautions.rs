//! Standing cautions that every packet prints. Common practice of the trade, in plain words; no source is claimed.

/// Cut edges cut.
pub const SHARP_EDGES: &str = "Sheared, sawn and punched edges are sharp. Break every edge and corner with a file \
    before the part is handled, and wear gloves for handling, not at turning machines.";

/// Lids fall.
pub const LIDS_FALL: &str = "An open lid can fall or be blown shut. Give it a stay or strut that holds it open, and \
    keep hands off the rim until it holds.";

/// Covers lie over a fall.
pub const COVERS_OFF: &str = "An opening with its cover off is a fall. Fence it before a cover is lifted, and do not \
    leave it open.";

/// Film burns.
pub const FILM: &str = "Peel protective film back from every weld and torch cut before heat comes to it, and from a bend \
    where the die would press it into the metal.";

/// Heavy or springy metal.
pub const HANDLING: &str = "Large sheets catch the wind and spring back when cut loose. Support both sides of every \
    cut and have a second pair of hands for anything you cannot lift with a straight back.";

/// Said over every order of cuts.
pub const SCRIBE_FIRST: &str = "Scribe every line before the first cut: edges that numbers start from are cut away on the way. Where a step says to bend a \
     strip and prove the bend number, cut that strip alone first, and scribe the rest after it.";

/// How the numbers of an order of cuts by hand are meant.
pub const CUTS_BY_HAND: &str = "A straight cut runs with the middle of the saw on its number, and a shear cuts on it; round an \
    outline the saw stays on the waste side of the line.";

/// How the numbers of an order of cuts on the shear are meant.
pub const CUTS_ON_THE_SHEAR: &str = "A number is the edge of a blank: a shear cuts on it, and a saw runs wholly beside it, never \
    with its middle on it. Where a part is cut from its blank, the saw stays on the waste side of the line.";

/// Said over the order of cuts.
pub const CUTTING_UP: &str = "Hold up the sheet on both sides of every cut: what is cut free falls. Keep feet clear, \
    wear gloves, dress the edges.";

/// Fire and explosion.
pub const HOT_WORK: &str = "Before welding or grinding on a boat or vehicle, gas-free every fuel tank, bilge and closed space, \
    take out fuel and batteries, and keep an extinguisher and a watch by the work.";

/// What this paper does not say.
pub const NOT_CERTIFIED: &str = "This packet gives sizes for marking, cutting and bending. It does not certify \
    strength, flotation, ventilation or fire safety; local codes and licensed practice decide those.";

/// Measured metal comes first.
pub const FIRST_PIECE: &str = "Cut and bend one piece of a kind, measure it, and only then make the rest.";

/// What a job has that a standing caution speaks of.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Speaks {
    /// Hinged or dropped-in lids.
    pub lids: bool,
    /// Loose covers over an opening.
    pub covers: bool,
    /// Metal with protective film.
    pub film: bool,
}

/// The standing cautions, those on lids, covers and film only where the job has them.
#[must_use]
pub fn standing(of: Speaks) -> Vec<String> {
    let all = [
        Some(FIRST_PIECE),
        Some(SHARP_EDGES),
        Some(HANDLING),
        of.lids.then_some(LIDS_FALL),
        of.covers.then_some(COVERS_OFF),
        of.film.then_some(FILM),
        Some(HOT_WORK),
        Some(NOT_CERTIFIED),
    ];
    all.into_iter().flatten().map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lids_are_spoken_of_only_where_there_are_lids() {
        let lids = Speaks { lids: true, ..Speaks::default() };
        assert!(standing(lids).iter().any(|caution| caution == LIDS_FALL));
        assert!(!standing(lids).iter().any(|caution| caution == COVERS_OFF || caution == FILM));
        let without = standing(Speaks::default());
        assert!(!without.iter().any(|caution| caution == LIDS_FALL));
        assert!(without.iter().any(|caution| caution == NOT_CERTIFIED));
    }
}
