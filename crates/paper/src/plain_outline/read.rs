//! Reading a plain outline back.

use fold::Direction;
use geometry::{Contour, Outline, Point, Segment};
use units::LengthUnit;

use super::scan::Lines;
use super::{ReadBend, ReadOutline, VERSION, millimetres_per};

/// How far a point, centre and radius may disagree, in last digits of the file: each was rounded on its own.
const SLACK_DIGITS: f64 = 3.0;

/// One last digit of a length in the file.
const LAST_DIGIT: f64 = 0.0001;

/// What is wrong with a plain outline.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum OutlineError {
    /// The file ends too early.
    #[error("the file ends where \"{expected}\" should stand")]
    TooShort {
        /// What was expected.
        expected: &'static str,
    },
    /// Something else stands where a word is expected.
    #[error("line {line}: expected \"{expected}\", found \"{found}\"")]
    Unexpected {
        /// Line number from 1.
        line: usize,
        /// What was expected.
        expected: &'static str,
        /// What stands there.
        found: String,
    },
    /// Something else stands where a number is expected.
    #[error("line {line}: \"{found}\" is not a number")]
    NotANumber {
        /// Line number from 1.
        line: usize,
        /// What stands there.
        found: String,
    },
    /// The file is of another version.
    #[error("the file is of version {found}; this program reads version {VERSION}")]
    Version {
        /// Its version.
        found: String,
    },
    /// A loop does not end where it started.
    #[error("line {line}: the loop does not end where it started")]
    Open {
        /// Line number of its end.
        line: usize,
    },
    /// Ends, centre and radius of an arc do not agree.
    #[error("line {line}: both ends of the arc must lie on its circle")]
    Arc {
        /// Line number.
        line: usize,
    },
}

/// Reads a file written by [`super::write`].
///
/// # Errors
/// The first [`OutlineError`] met.
pub fn read(text: &str) -> Result<ReadOutline, OutlineError> {
    let mut lines = Lines::of(text);
    let (_, version) = lines.take("plateloft outline")?;
    if version != VERSION.to_string() {
        return Err(OutlineError::Version { found: version.to_owned() });
    }
    let mut words = lines.words("units")?;
    let unit = if words.choice("inch", "mm")? { LengthUnit::Inch } else { LengthUnit::Millimetre };
    words.finish()?;
    let scale = millimetres_per(unit);
    let (job, mark) = (lines.free_text("job")?, lines.free_text("mark")?);
    let metal = lines.free_text("metal")?;
    let quantity = whole_number(&mut lines, "quantity")?;
    let mut words = lines.words("thickness")?;
    let thickness_mm = words.number()? * scale;
    words.finish()?;
    let face = lines.free_text("face")?;
    let outer = contour(&mut lines, "loop outer", scale)?;
    let mut holes = Vec::new();
    while lines.peek() == "loop hole" {
        holes.push(contour(&mut lines, "loop hole", scale)?);
    }
    let mut bends = Vec::new();
    while lines.peek().starts_with("bend ") {
        bends.push(bend(&mut lines, scale)?);
    }
    lines.words("end")?.finish()?;
    lines.finish()?;
    let outline = Outline { outer, holes };
    Ok(ReadOutline { unit, job, mark, metal, quantity, thickness_mm, face, outline, bends })
}

fn whole_number(lines: &mut Lines<'_>, keyword: &'static str) -> Result<u32, OutlineError> {
    let (line, found) = lines.take(keyword)?;
    found.parse().map_err(|_| OutlineError::NotANumber { line, found: found.to_owned() })
}

fn contour(lines: &mut Lines<'_>, keyword: &'static str, scale: f64) -> Result<Contour, OutlineError> {
    lines.words(keyword)?.finish()?;
    let mut words = lines.words("start")?;
    let start = words.point(scale)?;
    words.finish()?;
    let mut segments: Vec<Segment> = Vec::new();
    let mut at = start;
    while lines.peek() != "close" {
        let segment = segment(lines, at, scale)?;
        at = segment.end();
        segments.push(segment);
    }
    let words = lines.words("close")?;
    let line = words.line;
    words.finish()?;
    if segments.is_empty() || 0.5 * LAST_DIGIT * scale < at.distance(start) {
        return Err(OutlineError::Open { line });
    }
    Ok(Contour { segments })
}

fn segment(lines: &mut Lines<'_>, from: Point, scale: f64) -> Result<Segment, OutlineError> {
    if !lines.peek().starts_with("arc ") {
        let mut words = lines.words("line to")?;
        let to = words.point(scale)?;
        words.finish()?;
        return Ok(Segment::Line { to });
    }
    let mut words = lines.words("arc to")?;
    let line = words.line;
    let to = words.point(scale)?;
    words.word("centre")?;
    let centre = words.point(scale)?;
    words.word("radius")?;
    let radius = words.number()? * scale;
    let counter_clockwise = words.choice("ccw", "cw")?;
    words.finish()?;
    let off = [from, to].iter().fold(0.0, |most: f64, end| most.max((centre.distance(*end) - radius).abs()));
    if SLACK_DIGITS * LAST_DIGIT * scale < off {
        return Err(OutlineError::Arc { line });
    }
    Ok(Segment::Arc { to, centre, counter_clockwise })
}

fn bend(lines: &mut Lines<'_>, scale: f64) -> Result<ReadBend, OutlineError> {
    let mut words = lines.words("bend")?;
    let direction = if words.choice("up", "down")? { Direction::Up } else { Direction::Down };
    words.word("turn")?;
    let turn_degrees = words.number()?;
    words.word("radius")?;
    let radius_mm = words.number()? * scale;
    words.word("zone")?;
    let zone_mm = words.number()? * scale;
    words.word("from")?;
    let from = words.point(scale)?;
    words.word("to")?;
    let to = words.point(scale)?;
    words.finish()?;
    Ok(ReadBend { direction, turn_degrees, radius_mm, zone_mm, from, to })
}
