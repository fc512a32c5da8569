//! A side locker: a long box against the hull, tapered in plan and in height, made of a top, a front, two ends and the
//! backing strips of its seams.
//!
//! Seen from above, x runs along the straight rear edge from aft forward and the front lies to port of it, so the locker
//! stands against the starboard side; its opposite hand is the port locker. The top's rear flange turns up against the
//! hull, its front flange down; the two bends reverse, so the width runs from the outside of the front flange to the
//! rear face of the rear flange and no thickness is lost. The front stands behind the top's front flange, its upper
//! edge below the bend's inside radius; its bottom flange turns in. The ends stand inside the front, between the top
//! and the bottom flange: they stop against these, which run through, or carry joining flanges, turned in, that these
//! lie on. Marked faces are the upper one of the top and the outer ones of front and ends.

mod check;
mod meeting;
mod plates;

use fold::Direction::{Down, Up};
use geometry::{Frame, Point3, tolerance, trig};
use units::{Angle, Length};

use crate::deck::flat_strip;
use crate::hole::{Hole, HoleKind};
use crate::panel::{Flange, Panel};
use crate::strip_on_frame::StripAcross;
use crate::{FaceSide, Fact, Figure, Making, Piece, Places, Problem, Recipe, Shaped, whole};

/// A locker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Locker {
    /// Along the straight rear edge.
    pub length: Length,
    /// Widths of the top aft and forward.
    pub widths: [Length; 2],
    /// Heights of the front aft and forward, from its upper edge to the outside of its bottom.
    pub heights: [Length; 2],
    /// Front flange of the top, down.
    pub front_flange: Length,
    /// Rear flange of the top, up.
    pub rear_flange: Length,
    /// Bottom flange of the front, in.
    pub bottom_flange: Length,
    /// Where top and front are split, from aft forward.
    pub splits_at: Vec<Length>,
    /// Spacing of the frames, counted from the aft end; a seam lies on a frame only.
    pub frames_every: Option<Length>,
    /// Width of the backing strip under each seam.
    pub backing_strip: Option<Length>,
    /// Where lids lie on the top.
    pub lids: Vec<LockerLid>,
    /// Longest bend that can be made.
    pub longest_bend: Option<Length>,
    /// Length, width and depth inside the crate that the flat blanks are packed in.
    pub crate_inside: Option<[Length; 3]>,
}

/// A lid on the top of a locker.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LockerLid {
    /// From the aft end to the lid's aft edge.
    pub at: Length,
    /// From the rear edge of the top to the lid's rear edge.
    pub from_rear: Length,
    /// Along and across.
    pub size: [Length; 2],
    /// Opening cut in the top in the middle of the lid; none is cut when not given.
    pub opening: Option<[Length; 2]>,
}

impl LockerLid {
    /// The opening under the lid, and how far it lies inside the lid's outside on every side.
    fn opening_words(&self, making: &Making) -> String {
        let Some(opening) = self.opening else {
            return "no opening is cut under it: whoever cuts one when fitting keeps it inside the lid"
                .to_owned();
        };
        let inside = |way: usize| making.print_mm(0.5 * (self.size[way] - opening[way]).millimetres());
        format!(
            "its opening is {} × {}, {} inside the lid's outside at either end and {} at either side",
            making.print(opening[0]),
            making.print(opening[1]),
            inside(0),
            inside(1)
        )
    }
}

/// What one piece of a locker is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Plate {
    Top(usize),
    Front(usize),
    /// 0 aft, 1 forward.
    End(usize),
    TopStrip(usize),
    FrontStrip(usize),
}

impl Recipe for Locker {
    fn word(&self) -> &'static str {
        "locker"
    }

    fn words(&self) -> &'static str {
        "side locker"
    }

    fn natural_face(&self) -> Option<FaceSide> {
        Some(FaceSide::Outside)
    }

    fn tight_field(&self) -> &'static str {
        "front_flange"
    }

    fn backs_a_seam(&self, piece: usize) -> bool {
        matches!(self.plates().get(piece), Some(Plate::TopStrip(_) | Plate::FrontStrip(_)))
    }

    fn pieces(&self) -> Vec<Piece> {
        let piece = |plate: Plate| {
            let (suffix, words) = self.words_of(plate);
            Piece { suffix, words, count: 1 }
        };
        self.plates().into_iter().map(piece).collect()
    }

    fn shape_piece(&self, piece: usize, making: &Making) -> Result<Shaped, Vec<Problem>> {
        self.check(making)?;
        let plates = self.plates();
        let plate = plates.get(piece).copied().unwrap_or(Plate::Top(0));
        let mut shaped = match plate {
            Plate::Top(length) => self.top(length, making),
            Plate::Front(length) => self.front(length, making),
            Plate::End(end) => self.end(end, making),
            Plate::TopStrip(seam) | Plate::FrontStrip(seam) => self.strip(plate, seam, making),
        }?;
        shaped.facts.extend(self.facts(making));
        shaped.facts.extend(self.place_facts(plate, making));
        shaped.facts.extend(self.seam_facts(piece, making)?);
        self.check_blank(&mut shaped, plates.len(), making)?;
        Ok(shaped)
    }

    fn places(&self, piece: usize, making: &Making) -> Places {
        self.plates().get(piece).map_or_else(Places::default, |plate| self.named(*plate, making))
    }

    fn put_together(&self, making: &Making) -> Vec<(usize, Frame)> {
        whole::numbered(self.roots(making))
    }

    fn whole_sizes(&self, making: &Making) -> Vec<Fact> {
        self.put_together_sizes(making)
    }

    fn lines_across(&self, _: &Making) -> Vec<(String, [Point3; 2])> {
        let line = |(number, at): (usize, f64)| {
            (format!("frame {number}"), [0.0, self.width_mm(at)].map(|y| Point3::new(at, y, 0.0)))
        };
        self.frames_between(0.0, self.length.millimetres()).into_iter().map(line).collect()
    }

    fn cautions(&self, piece: usize, making: &Making) -> Vec<Problem> {
        match self.plates().get(piece) {
            Some(Plate::Top(length)) => self.frames_under_lids(*length, making),
            Some(Plate::TopStrip(seam) | Plate::FrontStrip(seam)) => self.frames_under_strip(*seam, making),
            _ => Vec::new(),
        }
    }
}

impl Locker {
    fn plates(&self) -> Vec<Plate> {
        let lengths = 0..=self.splits_at.len();
        let strips = 0..if self.backing_strip.is_some() { self.splits_at.len() } else { 0 };
        let tops = lengths.clone().map(Plate::Top);
        let fronts = lengths.map(Plate::Front);
        let top_strips = strips.clone().map(Plate::TopStrip);
        let front_strips = strips.map(Plate::FrontStrip);
        let ends = (0..2).map(Plate::End);
        tops.chain(fronts).chain(ends).chain(top_strips).chain(front_strips).collect()
    }

    fn words_of(&self, plate: Plate) -> (String, String) {
        let part = |name: &str, length: usize| match self.splits_at.len() {
            0 => (name.to_owned(), format!("{name} of the starboard locker")),
            _ => (
                format!("{name}{}", length + 1),
                format!("{name} of the starboard locker, length {} from aft", length + 1),
            ),
        };
        let strip = |name: &str, seam: usize| {
            let words = format!("backing strip of the {name}, seam {} from aft", seam + 1);
            (format!("{name}-strip{}", seam + 1), words)
        };
        match plate {
            Plate::Top(length) => part("top", length),
            Plate::Front(length) => part("front", length),
            Plate::End(0) => ("end-aft".to_owned(), "aft end of the starboard locker".to_owned()),
            Plate::End(_) => ("end-fwd".to_owned(), "forward end of the starboard locker".to_owned()),
            Plate::TopStrip(seam) => strip("top", seam),
            Plate::FrontStrip(seam) => strip("front", seam),
        }
    }

    /// Both ends of one length of top or front, mm from the aft end.
    fn reach_mm(&self, length: usize) -> [f64; 2] {
        let from = length.checked_sub(1).map_or(Length::ZERO, |before| self.splits_at[before]);
        let to = self.splits_at.get(length).copied().unwrap_or(self.length);
        [from.millimetres(), to.millimetres()]
    }

    fn share(&self, x_mm: f64) -> f64 {
        x_mm / self.length.millimetres()
    }

    fn between(&self, ends: [Length; 2], x_mm: f64) -> f64 {
        let [aft, forward] = ends.map(Length::millimetres);
        aft + (forward - aft) * self.share(x_mm)
    }

    /// Width of the top at `x_mm`.
    fn width_mm(&self, x_mm: f64) -> f64 {
        self.between(self.widths, x_mm)
    }

    /// Height of the front at `x_mm`.
    fn height_mm(&self, x_mm: f64) -> f64 {
        self.between(self.heights, x_mm)
    }

    /// How much longer a line along the front is than its run along the rear edge: 1 / cos of the taper in plan.
    fn stretch(&self) -> f64 {
        trig::hypot(1.0, (self.widths[1] - self.widths[0]).millimetres() / self.length.millimetres())
    }

    /// Frames from one place to another, mm from the aft end: number and place of each.
    fn frames_between(&self, from_mm: f64, to_mm: f64) -> Vec<(usize, f64)> {
        let Some(every) = self.frames_every.filter(|every| Length::ZERO < *every) else { return Vec::new() };
        let all = (1_u32..).map(|number| f64::from(number) * every.millimetres());
        let within = all.take_while(|at| *at < self.length.millimetres() - tolerance::SAME_POINT_MM);
        let here = |(_, at): &(usize, f64)| {
            from_mm - tolerance::SAME_POINT_MM <= *at && *at <= to_mm + tolerance::SAME_POINT_MM
        };
        (1..).zip(within).filter(here).collect()
    }

    /// Frames that the backing strip of a seam lies on.
    fn frames_under_strip(&self, seam: usize, making: &Making) -> Vec<Problem> {
        let width_mm = self.backing_strip.unwrap_or(Length::ZERO).millimetres();
        let strip = StripAcross { seam: seam + 1, at_mm: self.splits_at[seam].millimetres(), width_mm };
        strip.cautions(&self.frames_between(0.0, self.length.millimetres()), making)
    }

    /// Where frames and lids lie on a length of the top, and frames on one of the front, from its own aft end.
    fn place_facts(&self, plate: Plate, making: &Making) -> Vec<Fact> {
        let (length, along, is_top) = match plate {
            Plate::Top(length) => (length, 1.0, true),
            Plate::Front(length) => (length, self.stretch(), false),
            Plate::End(_) | Plate::TopStrip(_) | Plate::FrontStrip(_) => return Vec::new(),
        };
        let [from, to] = self.reach_mm(length);
        let frames = self.frames_between(from, to);
        let places: Vec<String> = frames
            .iter()
            .map(|(number, at)| format!("frame {number} {}", making.print_mm((at - from) * along)))
            .collect();
        let frames = (!places.is_empty()).then(|| {
            Fact::words(
                "frames, from the aft end of this plate",
                format!("{}; scribe them by the running dimensions", places.join(", ")),
                "frames_every, splits_at",
            )
        });
        let lids = (1..).zip(&self.lids).filter(|_| is_top).filter_map(|(number, lid)| {
            let [aft, forward] = [lid.at, lid.at + lid.size[0]].map(|at| at.millimetres() - from);
            let here = 0.0 < forward && aft < to - from;
            let of_locker = if length == 0 {
                String::new()
            } else {
                format!(", {} from that of the locker", making.print(lid.at))
            };
            let opening = lid.opening_words(making);
            let words = format!(
                "{} along × {} across; its aft edge {} the aft end of this plate{of_locker}, its rear edge {} from the \
                 rear face of the rear flange; {opening}",
                making.print(lid.size[0]),
                making.print(lid.size[1]),
                if aft < 0.0 {
                    format!("{} aft of", making.print_mm(-aft))
                } else {
                    format!("{} from", making.print_mm(aft))
                },
                making.print(lid.from_rear),
            );
            here.then(|| Fact::words(format!("lid {number} lies"), words, "lids"))
        });
        frames.into_iter().chain(lids).collect()
    }

    /// What is taped over the top once all stands together, from the rear face of its rear flange to the outside of the front one.
    fn put_together_sizes(&self, making: &Making) -> Vec<Fact> {
        let (thickness, radius) = sheet(making);
        let length_mm = self.length.millimetres();
        let [aft_mm, forward_mm] = self.widths.map(Length::millimetres);
        let diagonal = |wide_mm: f64| making.print_mm(trig::hypot(length_mm, wide_mm));
        let heights = self.heights.map(|height| making.print_mm(height.millimetres() + radius + thickness));
        let words = |name: &str, words: String, origin: &str| Fact::words(name, words, origin);
        vec![
            words("rear edge of the top", making.print(self.length), "length"),
            words(
                "width of the top, aft and forward",
                format!("{} and {}", making.print_mm(aft_mm), making.print_mm(forward_mm)),
                "widths",
            ),
            words(
                "diagonals of the top",
                format!(
                    "rear aft to front forward {}, rear forward to front aft {}",
                    diagonal(forward_mm),
                    diagonal(aft_mm)
                ),
                "length, widths",
            ),
            words(
                "height of the front, top to bottom, aft and forward",
                heights.join(" and "),
                "heights + R + T of the top",
            ),
        ]
    }

    fn facts(&self, making: &Making) -> Vec<Fact> {
        let (thickness, radius) = sheet(making);
        let front = self.length.millimetres() * self.stretch();
        let mut facts = vec![Fact::length_mm(
            "front edge, the same on top and front",
            front,
            "√(length² + step in width²)",
        )];
        for (end, name) in ["aft", "forward"].into_iter().enumerate() {
            let overall = self.heights[end].millimetres() + radius + thickness;
            let origin = "height of the front + R + T of the top";
            facts.push(Fact::length_mm(format!("overall height {name}"), overall, origin));
        }
        facts
    }
}

/// Thickness and inside radius, mm.
fn sheet(making: &Making) -> (f64, f64) {
    (making.thickness_mm(), making.number.inside_radius().millimetres())
}
