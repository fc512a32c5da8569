//! Writing a plain outline.

use fold::Direction;
use fold::flat::BendLine;
use geometry::{Contour, Point, Segment};

use super::{PlainOutline, VERSION, millimetres_per, unit_word};

/// Writes the file.
#[must_use]
pub fn write(part: &PlainOutline<'_>) -> String {
    let printer = Printer { scale: 1.0 / millimetres_per(part.unit) };
    let mut lines = vec![
        format!("plateloft outline {VERSION}"),
        format!("units {}", unit_word(part.unit)),
        format!("job {}", free_text(part.job)),
        format!("mark {}", free_text(part.mark)),
        format!("metal {}", free_text(part.metal)),
        format!("quantity {}", part.quantity),
        format!("thickness {}", printer.length(part.flat.thickness_mm)),
        format!("face {}", free_text(part.face)),
    ];
    printer.contour("outer", &part.flat.outline.outer, &mut lines);
    for hole in &part.flat.outline.holes {
        printer.contour("hole", hole, &mut lines);
    }
    lines.extend(part.flat.bends.iter().map(|bend| printer.bend(bend)));
    lines.push("end".to_owned());
    lines.join("\n") + "\n"
}

/// Free text on one line.
fn free_text(text: &str) -> String {
    text.replace('\\', "\\\\").replace('\n', "\\n").replace('\r', "\\r")
}

struct Printer {
    /// Units of the file to the millimetre.
    scale: f64,
}

impl Printer {
    fn length(&self, millimetres: f64) -> String {
        number(millimetres * self.scale)
    }

    fn point(&self, point: Point) -> String {
        format!("{} {}", self.length(point.x), self.length(point.y))
    }

    fn contour(&self, kind: &str, contour: &Contour, lines: &mut Vec<String>) {
        lines.push(format!("loop {kind}"));
        lines.push(format!("start {}", self.point(contour.start())));
        lines.extend(contour.segments.iter().map(|segment| self.segment(segment)));
        lines.push("close".to_owned());
    }

    fn segment(&self, segment: &Segment) -> String {
        match *segment {
            Segment::Line { to } => format!("line to {}", self.point(to)),
            Segment::Arc { to, centre, counter_clockwise } => format!(
                "arc to {} centre {} radius {} {}",
                self.point(to),
                self.point(centre),
                self.length(centre.distance(to)),
                if counter_clockwise { "ccw" } else { "cw" }
            ),
        }
    }

    fn bend(&self, bend: &BendLine) -> String {
        let way = match bend.direction {
            Direction::Up => "up",
            Direction::Down => "down",
        };
        let turn = number(bend.turn_rad * 180.0 / std::f64::consts::PI);
        let (radius, zone) = (self.length(bend.inside_radius_mm), self.length(bend.zone_mm));
        let (from, to) = (self.point(bend.from), self.point(bend.to));
        format!("bend {way} turn {turn} radius {radius} zone {zone} from {from} to {to}")
    }
}

/// Four decimals, never a negative zero.
fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    if text == "-0.0000" { "0.0000".to_owned() } else { text }
}
