//! Cuts that may serve two parts.

use crate::problem::Problem;

impl Problem {
    /// The problem for a saw whose cut of `kerf` steps may serve two parts.
    #[must_use]
    pub fn sharing_cuts(mut self, kerf: i64) -> Self {
        self.shared_kerf = Some(kerf).filter(|kerf| 0 < *kerf && *kerf <= self.rules.gap);
        self
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
}
