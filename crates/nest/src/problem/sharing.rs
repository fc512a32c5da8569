//! The width of a cut, and cuts that may serve two parts.

use crate::problem::{Part, Problem};

impl Problem {
    /// The problem for a saw whose cut of `kerf` steps may serve two parts.
    #[must_use]
    pub fn sharing_cuts(mut self, kerf: i64) -> Self {
        self.shared_kerf = Some(kerf).filter(|kerf| 0 < *kerf && *kerf <= self.rules.gap);
        self
    }

    /// The problem for a saw that takes `kerf` steps: what falls out of a cut-out is smaller than the cut-out by that much all round,
    /// and not by the gap.
    #[must_use]
    pub const fn sawn(mut self, kerf: i64) -> Self {
        self.kerf = Some(kerf);
        self
    }

    /// How much smaller what falls out of a cut-out is, on every side: the kerf, or the gap where the saw is not known.
    #[must_use]
    pub fn kept_off_cut_outs(&self) -> i64 {
        self.kerf.unwrap_or(self.rules.gap).max(0)
    }

    /// Width of a cut that may serve two parts, where cuts may.
    #[must_use]
    pub const fn shared_kerf(&self) -> Option<i64> {
        self.shared_kerf
    }

    /// The least that any two parts are ever apart: the gap, or a cut that serves both. Limits rest on this.
    pub(crate) fn least_apart(&self) -> i64 {
        self.shared_kerf.unwrap_or(self.rules.gap)
    }

    /// The problem with other parts, each with the number of the part here whose turns it has, if it is one; pieces that share cuts
    /// already are among them, so no cut serves two of them.
    pub(crate) fn with_rows(&self, parts: Vec<(Part, Option<usize>)>) -> Self {
        let turns = |number: &Option<usize>| number.and_then(|number| self.flush.get(number)).cloned();
        let flush = parts.iter().map(|(_, number)| turns(number).unwrap_or_default()).collect();
        let parts = parts.into_iter().map(|(part, _)| part).collect();
        Self { parts, flush, shared_kerf: None, ..self.clone() }
    }
}
