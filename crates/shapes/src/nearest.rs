//! The nearest size that works where a shape is refused: each is tried by shaping, unfolding and refolding every piece.

use units::{Length, LengthStyle};

use crate::edge::{EdgeEnd, HemKind};
use crate::{CornerStyle, Making, Problem, Recipe};

/// Most steps that a size is moved by.
const MOST_STEPS: u32 = 4096;

/// How many steps are tried one by one where doubling them found nothing.
const ONE_BY_ONE: u32 = 64;

/// One thing tried: what is said of it, the shape and how it is made.
pub struct Tried {
    /// "a return of 5 1/2".
    pub words: String,
    /// The shape with that size.
    pub recipe: Box<dyn Recipe>,
    /// How it is made.
    pub making: Making,
}

/// One size that may be moved, step by step, away from what does not work.
pub struct Way<'a> {
    /// The field that asks for it, or what it begins with: "edge", "return".
    pub field: &'static str,
    /// The shape so many steps away, from one on; `None` past the last.
    pub at: Box<dyn Fn(u32) -> Option<Tried> + 'a>,
}

/// The step by which sizes are tried: 1/16 in, or a millimetre.
#[must_use]
pub fn step(making: &Making) -> Length {
    match making.style {
        LengthStyle::Millimetres { .. } => Length::from_millimetres(1.0),
        LengthStyle::Tape { .. } | LengthStyle::Inches { .. } => Length::from_sixty_fourths(4),
    }
}

/// A size so many steps smaller, the first of them to the whole step below; `None` where nothing is left.
fn below(from: Length, step: Length, steps: u32) -> Option<Length> {
    let left = (from.nanometres() - 1) / step.nanometres() - i64::from(steps) + 1;
    (0 < left).then(|| step * left)
}

/// A size that is made smaller, down to one step at the least, on whole steps.
pub(crate) fn smaller<'a>(
    field: &'static str,
    (from, making): (Length, &'a Making),
    with: impl Fn(Length) -> (String, Box<dyn Recipe>) + 'a,
) -> Way<'a> {
    moved(field, making, move |step, steps| below(from, step, steps).map(&with))
}

/// A size that is made larger, on whole steps.
pub(crate) fn larger<'a>(
    field: &'static str,
    (from, making): (Length, &'a Making),
    with: impl Fn(Length) -> (String, Box<dyn Recipe>) + 'a,
) -> Way<'a> {
    moved(field, making, move |step, steps| {
        Some(with(step * (from.nanometres() / step.nanometres() + i64::from(steps))))
    })
}

fn moved<'a>(
    field: &'static str,
    making: &'a Making,
    with: impl Fn(Length, u32) -> Option<(String, Box<dyn Recipe>)> + 'a,
) -> Way<'a> {
    let at = move |steps: u32| {
        let (words, recipe) = with(step(making), steps)?;
        Some(Tried { words, recipe, making: making.clone() })
    };
    Way { field, at: Box::new(at) }
}

/// What is done to an edge, made smaller: a hem or return shorter, a curl tighter.
pub(crate) fn smaller_edge<'a>(
    field: &'static str,
    (edge, making): (EdgeEnd, &'a Making),
    with: impl Fn(EdgeEnd) -> Box<dyn Recipe> + 'a,
) -> Vec<Way<'a>> {
    let (from, word) = match edge {
        EdgeEnd::Plain => return Vec::new(),
        EdgeEnd::Hem { length, .. } => (length, "hem of"),
        EdgeEnd::Return { length, .. } => (length, "return of"),
        EdgeEnd::Curl { radius, .. } => (radius, "curl of inside radius"),
    };
    let sized = move |size: Length| match edge {
        EdgeEnd::Plain => EdgeEnd::Plain,
        EdgeEnd::Hem { kind, way, .. } => EdgeEnd::Hem { kind, way, length: size },
        EdgeEnd::Return { turn, way, .. } => EdgeEnd::Return { turn, way, length: size },
        EdgeEnd::Curl { turn, way, .. } => EdgeEnd::Curl { turn, way, radius: size },
    };
    // A tear-drop whose leg is shortened opens, and is then another hem.
    if matches!(edge, EdgeEnd::Hem { kind: HemKind::TearDrop { .. }, .. }) {
        return Vec::new();
    }
    let words = move |size: Length| format!("a {word} {}", making.print(size));
    vec![smaller(field, (from, making), move |size| (words(size), with(sized(size))))]
}

/// True when every piece can be shaped, comes out of one flat, and refolds.
#[must_use]
pub fn works(recipe: &dyn Recipe, making: &Making) -> bool {
    (0..recipe.pieces().len().max(1)).all(|piece| {
        recipe.shape_piece(piece, making).is_ok_and(|shaped| {
            shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
        })
    })
}

impl Way<'_> {
    /// The fewest steps that work, with one less that does not, and what is said of it: found by doubling and then by halving.
    /// `None` where no step works.
    #[must_use]
    pub fn nearest(&self) -> Option<(u32, String)> {
        let tried = |steps: u32| {
            let tried = (self.at)(steps)?;
            Some(works(&*tried.recipe, &tried.making).then_some(tried.words))
        };
        let (mut fails, mut step, mut past) = (0, 1, MOST_STEPS);
        let (mut good, mut words) = loop {
            match tried(step) {
                Some(Some(words)) => break (step, words),
                Some(None) => fails = step,
                // Past the last: between it and what failed something may still work.
                None => past = step,
            }
            if past <= fails + 1 {
                // What works may lie between two that do not.
                let one = |steps: u32| tried(steps).flatten().map(|words| (steps, words));
                return (1..ONE_BY_ONE).take_while(|steps| (self.at)(*steps).is_some()).find_map(one);
            }
            step = (2 * fails).max(1).min(fails + (past - fails) / 2);
        };
        while fails + 1 < good {
            let middle = fails + (good - fails) / 2;
            match tried(middle) {
                Some(Some(found)) => (good, words) = (middle, found),
                _ => fails = middle,
            }
        }
        Some((good, words))
    }
}

/// Which sizes would do, one at a time: those of `field`, or all of them where the shape as a whole does not come out.
#[must_use]
pub fn nearest(recipe: &dyn Recipe, field: Option<&str>, making: &Making) -> Option<String> {
    let asked = |way: &Way<'_>| field.is_none_or(|field| field.starts_with(way.field));
    let ways = recipe.ways(making).into_iter().chain(of_making(recipe, making));
    let found: Vec<String> = ways.filter(asked).filter_map(|way| Some(way.nearest()?.1)).collect();
    (!found.is_empty()).then(|| format!("{} would do", found.join(", or ")))
}

/// A problem with the nearest size that would do after its own remedy, where that has no number yet and one is found.
#[must_use]
pub fn with_nearest(recipe: &dyn Recipe, problem: Problem, making: &Making) -> Problem {
    if problem.remedy.contains(|c: char| c.is_ascii_digit()) {
        return problem;
    }
    let field = problem.field.clone();
    and_nearest(recipe, problem, Some(&field), making)
}

/// A problem with the nearest sizes that would do after its own remedy, as of [`nearest`], where any are found.
#[must_use]
pub fn and_nearest(recipe: &dyn Recipe, problem: Problem, field: Option<&str>, making: &Making) -> Problem {
    match nearest(recipe, field, making) {
        Some(found) => Problem { remedy: format!("{}; {found}", problem.remedy), ..problem },
        None => problem,
    }
}

/// What may be moved of how any shape is made: tabs narrower, or all corners open.
fn of_making<'a>(recipe: &'a dyn Recipe, making: &'a Making) -> Vec<Way<'a>> {
    let tabs = making.corner.single().into_iter().filter_map(|(field, style)| {
        let CornerStyle::TabAndSlot { tab, clearance, count, tabs_on } = style.clone() else { return None };
        let at = move |steps: u32| {
            let tab = below(tab, step(making), steps)?;
            let style = CornerStyle::TabAndSlot { tab, clearance, count, tabs_on: tabs_on.clone() };
            let making = Making { corner: making.corner.with(&field, &style), ..making.clone() };
            let words = format!("tabs {} wide", making.print(tab));
            Some(Tried { words, recipe: recipe.boxed()?, making })
        };
        Some(Way { field: "corner", at: Box::new(at) })
    });
    let open = (!matches!(making.corner, CornerStyle::Open | CornerStyle::Gap { .. })).then(|| {
        let at = move |steps: u32| {
            let making = Making { corner: CornerStyle::Open, ..making.clone() };
            let words = "open corners".to_owned();
            (steps == 1).then_some(())?;
            Some(Tried { words, recipe: recipe.boxed()?, making })
        };
        // Asked for only where the shape as a whole does not come out.
        Way { field: "corner style", at: Box::new(at) }
    });
    tabs.chain(open).collect()
}
