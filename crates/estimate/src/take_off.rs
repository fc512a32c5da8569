//! Weights of the parts themselves, and their sums by metal.

use units::{Area, Mass, MassPerArea};

/// A part to be weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartToWeigh {
    /// The part's mark.
    pub mark: String,
    /// The metal's name.
    pub metal: String,
    /// Area of one flat, without its cut-outs.
    pub area: Area,
    /// Mass per area of the metal.
    pub weight_per_area: MassPerArea,
    /// How many.
    pub quantity: u32,
}

/// The weight of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct PartWeight {
    /// The part's mark.
    pub mark: String,
    /// The metal's name.
    pub metal: String,
    /// How many.
    pub quantity: u32,
    /// Mass of one.
    pub each: Mass,
    /// Area of all of them.
    pub area: Area,
    /// Mass of all of them.
    pub mass: Mass,
}

/// The parts of one metal together.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct MetalWeight {
    /// The metal's name.
    pub metal: String,
    /// How many parts.
    pub quantity: u64,
    /// Area of all of them.
    pub area: Area,
    /// Mass of all of them.
    pub mass: Mass,
}

/// The weights of all parts.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct TakeOff {
    /// Every part, in the order given.
    pub parts: Vec<PartWeight>,
    /// Sums by metal, in the order in which the metals first appear.
    pub metals: Vec<MetalWeight>,
    /// Area of all parts.
    pub area: Area,
    /// Mass of all parts.
    pub mass: Mass,
}

/// Weighs parts by their flats. Bending moves metal and takes none away, so a folded part weighs what its flat does.
///
/// The mass of one part is rounded to the microgram once; that of several is the multiple of it, so that a column of
/// a take-off can be redone by hand.
#[must_use]
pub fn take_off(parts: &[PartToWeigh]) -> TakeOff {
    let parts: Vec<PartWeight> = parts.iter().map(weigh).collect();
    let area = parts.iter().map(|part| part.area).sum();
    let mass = parts.iter().map(|part| part.mass).sum();
    TakeOff { metals: total_by_metal(&parts), parts, area, mass }
}

fn weigh(part: &PartToWeigh) -> PartWeight {
    let each = part.weight_per_area.over(part.area);
    let times = i64::from(part.quantity);
    PartWeight {
        mark: part.mark.clone(),
        metal: part.metal.clone(),
        quantity: part.quantity,
        each,
        area: part.area * times,
        mass: each * times,
    }
}

fn total_by_metal(parts: &[PartWeight]) -> Vec<MetalWeight> {
    let mut metals: Vec<MetalWeight> = Vec::new();
    for part in parts {
        let quantity = u64::from(part.quantity);
        match metals.iter_mut().find(|metal| metal.metal == part.metal) {
            Some(metal) => {
                metal.quantity += quantity;
                metal.area += part.area;
                metal.mass += part.mass;
            }
            None => {
                let (metal, area, mass) = (part.metal.clone(), part.area, part.mass);
                metals.push(MetalWeight { metal, quantity, area, mass });
            }
        }
    }
    metals
}
