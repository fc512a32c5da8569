//! A plot of moments over the swing of a lid: the lid's own, and its struts' at two temperatures.
//!
//! Black on white: curves are told apart by their line and named at their ends, never by colour.

use geometry::{Point, Vector};

use crate::page::{Anchor, Item, Page, Pen, Text};

/// Width of the field of curves, mm.
const WIDTH_MM: f64 = 150.0;
/// Its height, mm.
const HEIGHT_MM: f64 = 95.0;
/// Height of ordinary text, mm.
const TEXT_MM: f64 = 3.2;
/// Room left of the field for numbers, right of it for names.
const LEFT_MM: f64 = 20.0;
const RIGHT_MM: f64 = 42.0;
/// Room above for the title, below for degrees.
const ABOVE_MM: f64 = 14.0;
const BELOW_MM: f64 = 16.0;
/// About how many steps the scale of moments has.
const STEPS: f64 = 6.0;

/// A curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Its name.
    pub name: String,
    /// Degrees and moments, in order.
    pub points: Vec<[f64; 2]>,
    /// Its line.
    pub pen: Pen,
}

/// What is plotted.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// Title.
    pub title: String,
    /// The unit of moments.
    pub unit: &'static str,
    /// The curves; all run over the same degrees.
    pub curves: Vec<Curve>,
}

/// Draws the plot; an empty page without points.
#[must_use]
pub fn draw(plot: &Plot) -> Page {
    let low = Point::new(-LEFT_MM, -BELOW_MM);
    let high = Point::new(WIDTH_MM + RIGHT_MM, HEIGHT_MM + ABOVE_MM);
    let mut items = Vec::new();
    let all = || plot.curves.iter().flat_map(|curve| curve.points.iter().copied());
    let open = all().map(|[degrees, _]| degrees).fold(0.0, f64::max);
    let least = all().map(|[_, moment]| moment).fold(0.0, f64::min);
    let most = all().map(|[_, moment]| moment).fold(0.0, f64::max);
    if open > 0.0 && least < most {
        let step = round_step((most - least) / STEPS);
        let (bottom, top) = ((least / step).floor() * step, (most / step).ceil() * step);
        let put = |[degrees, moment]: [f64; 2]| {
            Point::new(WIDTH_MM * degrees / open, HEIGHT_MM * (moment - bottom) / (top - bottom))
        };
        grid(&mut items, [bottom, top, step], open, &put);
        let names = names(plot, &put);
        for (curve, name) in plot.curves.iter().zip(names) {
            let places: Vec<Point> = curve.points.iter().map(|&point| put(point)).collect();
            let pieces = places.iter().zip(places.iter().skip(1)).enumerate();
            let shown = pieces.filter(|(number, _)| is_shown(curve.pen, *number));
            let lines = shown.map(|(_, (&from, &to))| Item::line(from, to, solid(curve.pen))).collect();
            items.push(Item::group(curve.name.as_str(), lines));
            items.push(name);
        }
    }
    let title = Point::new(-LEFT_MM + TEXT_MM, HEIGHT_MM + 2.5 * TEXT_MM);
    items.push(Item::Text(Text::new(title, plot.title.as_str(), 1.2 * TEXT_MM).bold()));
    let below = Point::new(0.5 * WIDTH_MM, -3.6 * TEXT_MM);
    items.push(Item::Text(Text::new(below, "lid open, degrees", TEXT_MM).anchored(Anchor::Middle)));
    let unit = format!("moment about the pin, {}", plot.unit);
    let beside = Point::new(-LEFT_MM + 1.5 * TEXT_MM, 0.5 * HEIGHT_MM);
    let words = Text::new(beside, unit, TEXT_MM).anchored(Anchor::Middle);
    items.push(Item::Text(words.turned(0.5 * std::f64::consts::PI)));
    Page { title: plot.title.clone(), low, high, text_mm: TEXT_MM, items }
}

/// Whether the piece of a curve with this number is drawn. The pieces are so short that a dashed pen would begin anew in
/// each and never come to its spaces.
const fn is_shown(pen: Pen, number: usize) -> bool {
    match pen {
        Pen::BendUp => number % 6 < 4,
        Pen::BendDown => matches!(number % 10, 0..=3 | 5 | 8),
        _ => true,
    }
}

/// The pen for the pieces of a curve.
const fn solid(pen: Pen) -> Pen {
    match pen {
        Pen::BendUp | Pen::BendDown => Pen::ViewEdge,
        other => other,
    }
}

/// Where the temperatures of the curves come from.
const CURVE: &str = "coldest and hottest of the job (weights, lids, struts)";

/// Where the numbers along the axes come from.
const AXIS: &str = "round steps of the axis; the curves are worked as the table of the swing is, at every quarter of a degree";

/// 1, 2 or 5 times a power of ten, from `rough` up.
fn round_step(rough: f64) -> f64 {
    let mut power = 1.0;
    while power * 10.0 <= rough {
        power *= 10.0;
    }
    while rough < power {
        power /= 10.0;
    }
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * power).find(|&step| rough <= step).unwrap_or(rough)
}

fn grid(items: &mut Vec<Item>, [bottom, top, step]: [f64; 3], open: f64, put: &impl Fn([f64; 2]) -> Point) {
    let steps = |from: f64, to: f64, step: f64| {
        (0_u32..)
            .map(move |number| from + f64::from(number) * step)
            .take_while(move |&at| at <= to + 0.5 * step)
    };
    for moment in steps(bottom, top, step) {
        let moment = if moment.abs() < 0.5 * step { 0.0 } else { moment };
        let (left, right) = (put([0.0, moment]), put([open, moment]));
        let pen = if moment.abs() > 0.0 { Pen::Extension } else { Pen::Datum };
        items.push(Item::line(left, right, pen));
        let number = if step < 1.0 { format!("{moment:.2}") } else { format!("{moment:.0}") };
        let at = left + Vector { x: -0.5, y: -0.35 } * TEXT_MM;
        items.push(Item::Text(Text::new(at, number, TEXT_MM).from(AXIS).anchored(Anchor::End)));
    }
    let every = if open <= 30.0 { 5.0 } else { 15.0 };
    for degrees in steps(0.0, open, every).filter(|&degrees| degrees <= open) {
        let (foot, head) = (put([degrees, bottom]), put([degrees, top]));
        items.push(Item::line(foot, head, Pen::Extension));
        let at = foot + Vector { x: 0.0, y: -1.5 } * TEXT_MM;
        let number = Text::new(at, format!("{degrees:.0}"), TEXT_MM).from(AXIS);
        items.push(Item::Text(number.anchored(Anchor::Middle)));
    }
}

/// The curves' names beside their ends, moved apart so that none covers another.
fn names(plot: &Plot, put: &impl Fn([f64; 2]) -> Point) -> Vec<Item> {
    let ends: Vec<Point> = plot
        .curves
        .iter()
        .map(|curve| curve.points.last().map_or(Point::default(), |&end| put(end)))
        .collect();
    let mut order: Vec<usize> = (0..ends.len()).collect();
    order.sort_by(|&a, &b| ends[a].y.total_cmp(&ends[b].y));
    let mut heights = vec![0.0; ends.len()];
    let mut above = f64::NEG_INFINITY;
    for number in order {
        heights[number] = ends[number].y.max(above + 1.5 * TEXT_MM);
        above = heights[number];
    }
    let name = |(curve, height): (&Curve, f64)| {
        let at = Point::new(WIDTH_MM + TEXT_MM, height - 0.35 * TEXT_MM);
        Item::Text(Text::new(at, curve.name.as_str(), TEXT_MM).from(CURVE))
    };
    plot.curves.iter().zip(heights).map(name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_of_the_scale_are_round() {
        for (rough, step) in [(80.0, 100.0), (0.3, 0.5), (13.0, 20.0), (1.0, 1.0)] {
            assert!((round_step(rough) - step).abs() < 0.001, "{rough}");
        }
    }
}
