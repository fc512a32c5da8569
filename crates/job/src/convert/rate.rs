//! Rates that stand in the job as several fields: whole, or with fields that must be asked for.

/// A rate of several fields.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Rate<T> {
    /// The job says nothing of it.
    #[default]
    Unset,
    /// The job gives some of its fields; these are the names of the others.
    Missing(Vec<&'static str>),
    /// All of it.
    Set(T),
}

impl<T> Rate<T> {
    /// A rate with those fields missing that are not `given`.
    pub(super) fn missing(given: &[(&'static str, bool)]) -> Self {
        Self::Missing(given.iter().filter(|(_, given)| !given).map(|(name, _)| *name).collect())
    }

    /// All of it; none while something of it must be asked for.
    #[must_use]
    pub const fn set(&self) -> Option<&T> {
        match self {
            Self::Set(rate) => Some(rate),
            Self::Unset | Self::Missing(_) => None,
        }
    }

    /// The question after what is not set of it, which stands as `field` under `group` in the job: `ask`, then the names of
    /// the fields. None where all is set.
    #[must_use]
    pub fn question(&self, ask: &str, field: &str, group: &str) -> Option<String> {
        let unset = match self {
            Self::Set(_) => return None,
            Self::Unset => format!("\"{field}\" under \"{group}\" is"),
            Self::Missing(names) => {
                let quoted: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
                let verb = if quoted.len() == 1 { "is" } else { "are" };
                format!("{} of \"{field}\" under \"{group}\" {verb}", quoted.join(", "))
            }
        };
        Some(format!("{ask} {unset} not set."))
    }
}
