//! Where the plate of a rolled wrap truly lies: on a cylinder or cone, where its flats are only drawn between element lines.
//!
//! Places are given as they lie on the flat, in the coordinates of the wrap's first flat (z = 0 on its inside), and come
//! out in the same coordinates with the plate rolled: the true surface touches that flat's plane along the seam.

use std::f64::consts::PI;

use geometry::{Point, Point3, Vector3, trig};
use units::{LengthStyle, LengthUnit};

/// A plate rolled to a cylinder or a cone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    pub(crate) kind: Kind,
    pub(crate) thickness_mm: f64,
    /// How far outward the strip of a lap is set off, mm; nothing with a butt seam.
    pub(crate) lap_outward_mm: f64,
    pub(crate) mirrored: bool,
}

/// What it is rolled to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Kind {
    /// Element lines run along x; the seam lies at `seam_mm` along y.
    Cylinder { middle_mm: f64, seam_mm: f64 },
    /// Element lines run from the apex at (0, `apex_mm`); the seam at an angle of `seam_rad` from x.
    Cone { lean_rad: f64, apex_mm: f64, seam_rad: f64, slants_mm: [f64; 2] },
}

/// A place on the flat as the round has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundPlace {
    /// Along an element line: from the end of a cylinder, from the apex of a cone, mm.
    pub along_mm: f64,
    /// Round the axis from the seam, radians.
    pub round_rad: f64,
}

impl Round {
    /// The opposite hand, mirrored across x as a part's own coordinates are.
    #[must_use]
    pub const fn opposite(self) -> Self {
        Self { mirrored: !self.mirrored, ..self }
    }

    /// A place on the flat.
    #[must_use]
    pub fn on_flat(&self, place: Point) -> RoundPlace {
        let place = if self.mirrored { Point::new(-place.x, place.y) } else { place };
        match self.kind {
            Kind::Cylinder { middle_mm, seam_mm } => {
                RoundPlace { along_mm: place.x, round_rad: (place.y - seam_mm) / middle_mm }
            }
            Kind::Cone { lean_rad, apex_mm, seam_rad, .. } => {
                let from = place - Point::new(0.0, apex_mm);
                // The flat runs round from the seam against the clock; at both ends a lap may run on past it, up to half of
                // what the sector leaves of the circle.
                let past = PI * (1.0 - trig::sin(lean_rad));
                let angle = (from.angle() - seam_rad + past).rem_euclid(2.0 * PI) - past;
                RoundPlace { along_mm: from.length(), round_rad: angle / trig::sin(lean_rad) }
            }
        }
    }

    /// Where a place lies once rolled, `z_mm` above the inside of the plate; what is `beyond` as far from the axis as that
    /// times so much.
    #[must_use]
    pub fn place(&self, place: RoundPlace, z_mm: f64, beyond: f64) -> Point3 {
        let off_mm = z_mm - 0.5 * self.thickness_mm;
        let (up, across) = (Vector3::new(0.0, 0.0, 1.0), Vector3::new(0.0, 1.0, 0.0));
        let (sine, cosine) = (trig::sin(place.round_rad), trig::cos(place.round_rad));
        let at = match self.kind {
            Kind::Cylinder { middle_mm, seam_mm } => {
                let axis = Point3::new(place.along_mm, seam_mm, 0.5 * self.thickness_mm - middle_mm);
                axis + (up * cosine + across * sine) * ((middle_mm + off_mm) * beyond)
            }
            Kind::Cone { lean_rad, apex_mm, seam_rad, .. } => {
                let (lean_sine, lean_cosine) = (trig::sin(lean_rad), trig::cos(lean_rad));
                let seam = Vector3::new(trig::cos(seam_rad), trig::sin(seam_rad), 0.0);
                let axis = seam * lean_cosine + up * -lean_sine;
                // Square to the axis, toward the seam and a quarter round from it.
                let (to_seam, quarter) = (seam * lean_sine + up * lean_cosine, up.cross(seam));
                let apex = Point3::new(0.0, apex_mm, 0.5 * self.thickness_mm);
                let radius_mm = place.along_mm * lean_sine + off_mm * lean_cosine;
                let height_mm = place.along_mm * lean_cosine - off_mm * lean_sine;
                apex + axis * height_mm + (to_seam * cosine + quarter * sine) * (radius_mm * beyond)
            }
        };
        if self.mirrored { Point3::new(-at.x, at.y, at.z) } else { at }
    }

    /// Heights of the inside and the outside of the metal, mm; those of a lap's strip, and of the joggle before it, with all
    /// that they pass through.
    #[must_use]
    pub fn sides_mm(&self, of_lap: bool) -> [f64; 2] {
        let off = if of_lap { self.lap_outward_mm } else { 0.0 };
        [off.min(0.0), self.thickness_mm + off.max(0.0)]
    }

    /// The largest radius of its outside, mm.
    #[must_use]
    pub fn outside_radius_mm(&self) -> f64 {
        self.outside_radii_mm().into_iter().fold(0.0, f64::max)
    }

    /// Radii of the outside at both ends, mm: ends of a cone are cut square to the plate, so its outside edge counts.
    fn outside_radii_mm(&self) -> [f64; 2] {
        match self.kind {
            Kind::Cylinder { middle_mm, .. } => [middle_mm + 0.5 * self.thickness_mm; 2],
            Kind::Cone { lean_rad, slants_mm, .. } => {
                let off = 0.5 * self.thickness_mm * trig::cos(lean_rad);
                slants_mm.map(|slant| slant * trig::sin(lean_rad) + off)
            }
        }
    }

    /// What a tape proves on the finished round: names and diameters, mm.
    #[must_use]
    pub fn diameters(&self) -> Vec<(&'static str, f64)> {
        let [first, second] = self.outside_radii_mm().map(|radius| 2.0 * radius);
        match self.kind {
            Kind::Cylinder { .. } => vec![("outside diameter, taped two ways square to one another", first)],
            Kind::Cone { .. } => vec![
                ("outside diameter of the small end, taped two ways square to one another", first),
                ("outside diameter of the large end, taped two ways square to one another", second),
            ],
        }
    }
}

/// Sizes of a rolled round as the roll makes it, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct RolledSizes {
    /// Inside diameters: of a cylinder one, of a cone the small end's and the large end's.
    pub inside_mm: Vec<f64>,
    /// Outside diameters, of the same ends.
    pub outside_mm: Vec<f64>,
    /// Of a cone: half its angle, and how far its ends lie from the apex along the plate.
    pub cone: Option<(f64, [f64; 2])>,
    /// How far the strip of a lap is set off outward, below zero inward; nothing with a butt seam.
    pub lap_outward_mm: f64,
}

impl Round {
    /// Sizes of the finished round. Ends of a cone are cut square to the plate: its inside edge stands T/2·cos(lean) nearer to the
    /// axis than the middle of the plate, its outside edge as much farther off.
    ///
    /// Source: plane geometry.
    #[must_use]
    pub fn sizes(&self) -> RolledSizes {
        let (middles, off_mm, cone) = match self.kind {
            Kind::Cylinder { middle_mm, .. } => (vec![middle_mm], 0.5 * self.thickness_mm, None),
            Kind::Cone { lean_rad, slants_mm, .. } => {
                let radii = slants_mm.map(|slant| slant * trig::sin(lean_rad));
                let off_mm = 0.5 * self.thickness_mm * trig::cos(lean_rad);
                (radii.to_vec(), off_mm, Some((lean_rad, slants_mm)))
            }
        };
        RolledSizes {
            inside_mm: middles.iter().map(|middle| 2.0 * (middle - off_mm)).collect(),
            outside_mm: middles.iter().map(|middle| 2.0 * (middle + off_mm)).collect(),
            cone,
            lap_outward_mm: self.lap_outward_mm,
        }
    }
}

/// A straightedge laid across the inside of a ring, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Straightedge {
    /// Inside radius where it is laid.
    pub radius_mm: f64,
    /// How long it is.
    pub chord_mm: f64,
    /// How far its middle stands off the metal.
    pub rise_mm: f64,
}

/// Share of the inside diameter that a straightedge takes, so that a sixty-fourth of an inch at its middle tells well under a
/// tenth of the radius of any ring above four inches (common practice, no source).
const STRAIGHTEDGE_SHARE: f64 = 0.6;

impl RolledSizes {
    /// A straightedge for every end: a length as rulers have it, and how far its middle stands off the metal of a true round.
    ///
    /// Source: plane geometry, R − √(R² − c²/4).
    #[must_use]
    pub fn straightedges(&self, style: LengthStyle) -> Vec<Straightedge> {
        let of = |inside_mm: &f64| {
            let radius_mm = 0.5 * inside_mm;
            let chord_mm = ruler_length_mm(STRAIGHTEDGE_SHARE * inside_mm, style);
            let rise_mm = radius_mm - (radius_mm * radius_mm - 0.25 * chord_mm * chord_mm).sqrt();
            Straightedge { radius_mm, chord_mm, rise_mm }
        };
        self.inside_mm.iter().map(of).collect()
    }

    /// What a tape reads round the outside of every end, mm: π × the diameter.
    #[must_use]
    pub fn girths_mm(&self) -> Vec<f64> {
        self.outside_mm.iter().map(|outside| PI * outside).collect()
    }
}

/// A length rounded down to what a straightedge is cut to: halves of an inch, or quarters below two; tens of millimetres, or twos
/// below fifty.
fn ruler_length_mm(length_mm: f64, style: LengthStyle) -> f64 {
    let step_mm = match (style.unit() == LengthUnit::Millimetre, length_mm < 50.8) {
        (true, true) => 2.0,
        (true, false) => 10.0,
        (false, true) => 25.4 / 4.0,
        (false, false) => 25.4 / 2.0,
    };
    let whole_mm = (length_mm / step_mm).floor() * step_mm;
    if whole_mm < step_mm { length_mm } else { whole_mm }
}
