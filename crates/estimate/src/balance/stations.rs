//! Loads along a trailer or a hull, summed with their lever arms.

use units::{Force, Length, Mass, Torque};

/// A load at its station.
#[derive(Debug, Clone, PartialEq)]
pub struct StationLoad {
    /// What it is.
    pub what: String,
    /// Its mass, all pieces together.
    pub mass: Mass,
    /// Its station: from the datum, below zero on the other side.
    pub at: Length,
}

/// Where the whole is held up.
#[derive(Debug, Clone, PartialEq)]
pub struct Support {
    /// What it is called.
    pub name: String,
    /// Its station.
    pub at: Length,
}

/// Loads that are summed.
#[derive(Debug, Clone, PartialEq)]
pub struct Loading {
    /// The loads.
    pub loads: Vec<StationLoad>,
}

/// Why two supports cannot carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the two supports are at one station: they cannot carry a load between them")]
pub struct SupportsFault;

impl StationLoad {
    /// Its moment about the datum.
    #[must_use]
    pub fn moment(&self) -> Torque {
        Torque::of(Force::weight_of(self.mass), self.at.millimetres())
    }
}

impl Loading {
    /// Mass of all loads.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.loads.iter().map(|load| load.mass).sum()
    }

    /// Moment of all loads about the datum: the sum of their own.
    #[must_use]
    pub fn moment(&self) -> Torque {
        self.loads.iter().map(StationLoad::moment).sum()
    }

    /// Station of the centre of gravity, mm: moment over weight. `None` when nothing weighs anything.
    #[must_use]
    pub fn centre_mm(&self) -> Option<f64> {
        let weight = Force::weight_of(self.mass()).newtons();
        (weight > 0.0).then(|| self.moment().newton_millimetres() / weight)
    }

    /// What each of two supports carries, by moments about the other. Below zero it must be held down.
    ///
    /// # Errors
    /// [`SupportsFault`] for supports at one station.
    pub fn carried(&self, supports: &[Support; 2]) -> Result<[Mass; 2], SupportsFault> {
        let [first, second] = [0, 1].map(|number: usize| supports[number].at.millimetres());
        let apart = second - first;
        if supports[0].at == supports[1].at {
            return Err(SupportsFault);
        }
        let share = |load: &StationLoad| load.mass.kilograms() * (load.at.millimetres() - first) / apart;
        let on_second = Mass::from_kilograms(self.loads.iter().map(share).sum());
        Ok([self.mass() - on_second, on_second])
    }
}
