//! What tooling is set up for a stroke: as much of the bend as is clear of standing and of flat metal, and what hinders most where
//! that is too little.

use geometry::Point;

use super::bench::SHORT_BY_MM;
use super::bodies;
use super::metal::Line;
use super::room::{self, Tooling};
use super::search::Mode;
use super::stroke::{Hindrance, Stretch, Stroke, Trials};
use super::taken::{Taken, beside_the_leaf, ends, flat_beside, flat_between, most_in_the_way};

impl Trials<'_> {
    /// What bends that are not `made` take from the tools past the ends of a stroke.
    ///
    /// # Errors
    /// One of them lies between two bends of the stroke.
    pub(super) fn unmade_beside(
        &self,
        lead: usize,
        made: u64,
        (group, stretch_mm): (&[Stretch], (f64, f64)),
    ) -> Result<Vec<Taken>, Hindrance> {
        let mut taken = Vec::new();
        for (face, own) in self.unmade_on_line(lead, made) {
            if flat_between(&[own], group) {
                return Err(Hindrance { flat: true, ..Hindrance::of(face, bodies::PUNCH) });
            }
            taken.extend(flat_beside(&[own], face, stretch_mm));
        }
        Ok(taken)
    }

    /// Bends that are not `made` and lie in the plane of the sheet on the line of `lead`, run on: a press would bend them too.
    /// Each by its child, and from where to where it lies along that line, mm.
    fn unmade_on_line(&self, lead: usize, made: u64) -> Vec<(usize, (f64, f64))> {
        if !self.bench.is_press() {
            return Vec::new();
        }
        let own = &self.metal.lines[lead];
        let along = own.along();
        let near_mm = own.radius_mm + self.metal.thickness_mm;
        let on_line = |p: Point| (p - own.from).cross(along).abs() <= near_mm;
        let lines = self.metal.lines.iter().enumerate().filter(|(bend, line)| {
            let way = self.routes.bits(lead, line.parent) & !(1 << lead | 1 << bend);
            made >> bend & 1 == 0
                && self.routes.connected(lead, line.parent)
                && way & made == 0
                && on_line(line.from)
                && on_line(line.to)
        });
        let stretch = |line: &Line| {
            let ends = [line.from, line.to].map(|p| (p - own.from).dot(along));
            (ends[0].min(ends[1]), ends[0].max(ends[1]))
        };
        lines.map(|(_, line)| (line.child, stretch(line))).collect()
    }

    /// Sets the leaf and the tooling between what is `blocked`, clear of flat metal that is `crossed` by the line of the bend
    /// run on, and gives back what is blocked for tooling.
    pub(super) fn equip(
        &self,
        stroke: &mut Stroke,
        (blocked, crossed): (&[Taken], &[Taken]),
        mode: Mode,
    ) -> Result<Vec<Taken>, Hindrance> {
        let (on_leaf, blocked): (Vec<Taken>, Vec<Taken>) =
            blocked.iter().partition(|taken| taken.met.body == bodies::LEAF);
        if let Some(hindrance) = beside_the_leaf(&on_leaf, stroke.stretch_mm) {
            stroke.meets(hindrance, mode)?;
        }
        stroke.past_leaf = on_leaf.first().map(|taken| taken.face);
        let around: Vec<Taken> = blocked.iter().chain(crossed).copied().collect();
        let (tooling, hindrance) = self.tooling(&around, stroke.stretch_mm);
        stroke.tooling = Some(tooling);
        if let Some(hindrance) = hindrance {
            stroke.meets(hindrance, mode)?;
        }
        Ok(blocked)
    }

    /// The tooling that fits between what is in its way, and what hinders it most where none does: first without the
    /// stretches that only an assumed size takes, then without any.
    fn tooling(&self, blocked: &[Taken], stretch_mm: (f64, f64)) -> (Tooling, Option<Hindrance>) {
        let within = |taken: &[&Taken], short_by_mm: f64| {
            let stretches: Vec<(f64, f64)> = taken.iter().map(|taken| taken.met.stretch_mm).collect();
            let tooling = room::tooling(stretch_mm, &stretches, self.bench.sections(), short_by_mm)?;
            let of = |die: bool| taken.iter().filter(move |taken| (taken.met.body == bodies::DIE) == die);
            let ends = |die: bool| ends(of(die).copied(), tooling.over(stretch_mm));
            Some(Tooling { punch: ends(false), die: ends(true), ..tooling })
        };
        let between = |taken: &[&Taken]| within(taken, SHORT_BY_MM);
        let all: Vec<&Taken> = blocked.iter().collect();
        if let Some(tooling) = between(&all) {
            return (tooling, None);
        }
        let (high, low): (Vec<&Taken>, Vec<&Taken>) =
            all.iter().partition(|taken| taken.met.body == bodies::TALL_PUNCH);
        if between(&low).is_some() {
            // Only high over the bend there is too little room: what goes there is told all the same.
            if let Some(tooling) = within(&all, f64::INFINITY) {
                return (tooling, Some(most_in_the_way(&high, stretch_mm)));
            }
        }
        let (given, assumed): (Vec<&Taken>, Vec<&Taken>) = all.iter().partition(|taken| taken.met.given);
        if let Some(tooling) = between(&given) {
            let low = assumed.iter().copied().filter(|taken| taken.met.body != bodies::TALL_PUNCH);
            let low: Vec<&Taken> = low.collect();
            return (
                tooling,
                Some(most_in_the_way(if low.is_empty() { &assumed } else { &low }, stretch_mm)),
            );
        }
        let of_given = if given.is_empty() { &all } else { &given };
        let hindrance = Hindrance { assumed: false, ..most_in_the_way(of_given, stretch_mm) };
        let length_mm = stretch_mm.1 - stretch_mm.0;
        let any = Tooling {
            sections_mm: Vec::new(),
            clear_mm: (f64::NEG_INFINITY, f64::INFINITY),
            length_mm,
            punch: [None; 2],
            die: [None; 2],
        };
        (between(&[]).unwrap_or(any), Some(hindrance))
    }
}
