//! One part: shaped, laid flat, refolded, checked, weighed.

use checks::{Finding, Severity, Subject};
use fold::order::Outcome;
use fold::refold::{self, Proof, RefoldError};
use fold::{FlatPattern, flat};
use geometry::tolerance;
use job::{Job, JobMetal, Message, Part, PartLay, ShapeInput};
use shapes::{FaceSide, Problem, Recipe, Shaped};
use units::{Area, Length, LengthStyle, LengthUnit, Mass};

use super::bending;
use crate::speech::counted;

/// A part with everything worked out.
#[derive(Debug, Clone)]
pub(crate) struct PlannedPart {
    /// The part as the job gives it.
    pub(crate) part: Part,
    /// Folded, with its facts.
    pub(crate) shaped: Shaped,
    /// Laid flat.
    pub(crate) flat: FlatPattern,
    /// The flat as a press sees it, where that is another: every strike of a bumped face is a bend.
    pub(crate) struck: Option<FlatPattern>,
    /// The refold proof.
    pub(crate) proof: Proof,
    /// The order of its bends, by their numbers in [`Self::bent_flat`]; `None` without bends.
    pub(crate) bend_order: Option<Outcome>,
    /// Cautions found by the checks.
    pub(crate) findings: Vec<Finding>,
    /// Net area of one flat.
    pub(crate) area: Area,
    /// Weight of one.
    pub(crate) weight: Mass,
}

/// What stops a part.
#[derive(Debug)]
pub(crate) enum PartTrouble {
    /// Bad input.
    Messages(Vec<Message>),
    /// Sound, but the shop's machine cannot make it.
    No(Vec<Message>),
    /// The refold proof failed.
    Proof(String),
}

/// A part as shaped, with its flat and the proof of it: nothing is judged yet.
pub(crate) struct MadePart {
    shaped: Shaped,
    flat: FlatPattern,
    proof: Proof,
}

impl PlannedPart {
    /// The name of a step's rolled pipe and its cut length: the centre line with the straight tails that the rolls
    /// need. The first piece of a step stands for the whole; no other part has any.
    pub(crate) fn rolled_pipe(&self) -> Option<(&str, Length)> {
        let ShapeInput::Step(step) = &self.part.shape else { return None };
        let is_first = self.part.piece_of.as_ref().is_none_or(|piece| piece.number == 0);
        let (pipe, run) = (step.pipe.as_ref().filter(|_| is_first)?, step.pipe_run()?);
        Some((&pipe.name, Length::from_millimetres(run.length_mm())))
    }

    /// Shapes one part of `job`, lays it flat and proves the flat.
    pub(crate) fn made(file: &str, job: &Job, part: &Part) -> Result<MadePart, PartTrouble> {
        let message = |problem: &Problem| part.message(file, problem);
        let refused = |problems: Vec<Problem>| PartTrouble::Messages(problems.iter().map(message).collect());
        let recipe = part.shape.recipe();
        let nearer = |problem| shapes::nearest::with_nearest(recipe, problem, &part.making);
        let shaped = part.shape().map_err(|problems| refused(problems.into_iter().map(nearer).collect()))?;
        // With the nearest sizes that would do, where they are found.
        let with_nearest = |problem: Problem| {
            let piece = part.piece_of.as_ref().map_or(0, |piece| piece.number);
            let nearest = || match recipe.nearest_remedy(&part.making) {
                Some(remedy) => Problem { remedy, ..problem },
                None => shapes::nearest::and_nearest(recipe, problem, None, &part.making),
            };
            refused(vec![shapes::nearest_lap(recipe, piece, &part.making).unwrap_or_else(nearest)])
        };
        let flat = shaped.unfold().map_err(|error| {
            let held = bending::limits(job, &job.metals[part.metal]).shortest_leg();
            with_nearest(unfold_problem(recipe, &error, (held, job.style)))
        })?;
        if part.may_mirror && !flat.bends.is_empty() {
            return Err(refused(vec![bent_and_mirrored(&flat)]));
        }
        let proof = refold::prove(&shaped.part, &flat).map_err(|error| match error {
            RefoldError::RunsInto { .. } => with_nearest(collision_problem(recipe, &error, job.style)),
            _ => PartTrouble::Proof(format!("{file}: {}: {error}", part.mark)),
        })?;
        Ok(MadePart { shaped, flat, proof })
    }

    /// Judges a part of `job` by the rules of the shop. The order of its bends is looked for only where `with_order`: a job that
    /// is refused anyway does not wait for it.
    pub(crate) fn judged(
        job: &Job,
        part: &Part,
        made: MadePart,
        with_order: bool,
        message: &dyn Fn(&Problem) -> Message,
    ) -> Result<Self, PartTrouble> {
        let MadePart { shaped, flat, proof } = made;
        let metal = &job.metals[part.metal];
        let refused = |problems: Vec<Problem>| PartTrouble::Messages(problems.iter().map(message).collect());
        let area = Area::from_square_millimetres(flat.outline.area_mm2());
        let weight = metal.metal.weight_per_area.over(area);
        let limits = bending::limits(job, metal);
        let struck = flat.struck();
        let bent = struck.as_ref().unwrap_or(&flat);
        let bend_order = if with_order { bending::order(bent, &limits, metal) } else { None };
        let found = checks::check(&Subject {
            part: &shaped.part,
            flat: &flat,
            bent,
            weight,
            limits: &limits,
            bend_order: bend_order.as_ref(),
            style: job.style,
        });
        let of = |severity: Severity| found.iter().filter(move |finding| finding.severity == severity);
        let stopping: Vec<Problem> = of(Severity::Refuse).map(finding_problem).collect();
        if !stopping.is_empty() {
            return Err(refused(stopping));
        }
        let unmakeable = of(Severity::No).map(finding_problem);
        let messages: Vec<Message> = unmakeable.map(|problem| message(&problem)).collect();
        if !messages.is_empty() {
            return Err(PartTrouble::No(messages));
        }
        let mut findings: Vec<Finding> = of(Severity::Caution).cloned().collect();
        let piece = part.piece_of.as_ref().map_or(0, |piece| piece.number);
        let of_shape = part.shape.recipe().cautions(piece, &part.making);
        findings.extend(of_shape.into_iter().map(shape_finding));
        Ok(Self { part: part.clone(), shaped, flat, struck, proof, bend_order, findings, area, weight })
    }

    /// The flat whose numbers the order of bends has.
    pub(crate) fn bent_flat(&self) -> &FlatPattern {
        self.struck.as_ref().unwrap_or(&self.flat)
    }

    /// The flat direction, if any, that must run along the lay of the sheet: true when it is the flat's y axis.
    pub(crate) fn lay_across(&self) -> bool {
        self.part.lay == Some(PartLay::Across)
    }

    /// The side of the finished part that the marked face becomes, in a word or two.
    pub(crate) fn face_side(&self) -> &'static str {
        match self.part.face.or(self.part.shape.recipe().natural_face()) {
            Some(FaceSide::Outside) => "outside",
            Some(FaceSide::Inside) => "inside",
            None => "marked face",
        }
    }

    /// "this face up: outside, lugs".
    pub(crate) fn face_words(&self, metal: &JobMetal) -> String {
        let face = self.part.face.or(self.part.shape.recipe().natural_face());
        let backs = |piece: &job::PieceOf| self.part.shape.recipe().backs_a_seam(piece.number);
        let side = match face {
            _ if self.part.piece_of.as_ref().is_some_and(backs) => return strip_words(metal),
            Some(FaceSide::Outside) => "outside of the finished part".to_owned(),
            Some(FaceSide::Inside) => "inside of the finished part".to_owned(),
            None => {
                let drawn = self.part.drawn_face.unwrap_or_else(|| self.part.shape.recipe().drawn_face());
                format!("{} face of the finished part", drawn.word())
            }
        };
        let marked = marked_with(metal);
        let marked = if marked.is_empty() { String::new() } else { format!(", {marked} up") };
        format!("this face up: {side}{marked}")
    }

    /// Length of all saw cuts of one.
    pub(crate) fn cut_length(&self) -> Length {
        Length::from_millimetres(self.flat.outline.cut_length_mm())
    }
}

/// How a strip that backs a seam is drawn, and how it is fitted: two ways up that must not be taken for one.
fn strip_words(metal: &JobMetal) -> String {
    let (drawn, fitted) = match marked_with(metal) {
        "" => ("this face up".to_owned(), "this face away from the plates".to_owned()),
        marked => {
            let smooth = if marked.contains("lugs") { "smooth side" } else { "bare side" };
            (
                format!("this face up: {marked} up"),
                format!("{marked} away from the plates, {smooth} to the plates"),
            )
        }
    };
    format!(
        "{drawn}. Fitted the other way up, under the seam: {fitted}; its length along the seam, its middle under it"
    )
}

/// What only the marked face has, lugs or film. Both hands of a pair have it on the same face.
pub(crate) const fn marked_with(metal: &JobMetal) -> &'static str {
    match (metal.metal.pattern, metal.metal.film) {
        (stock::Pattern::Tread, stock::Film::OneSide) => "lugs and film",
        (stock::Pattern::Tread, stock::Film::Bare | stock::Film::BothSides) => "lugs",
        (stock::Pattern::Plain, stock::Film::OneSide) => "film",
        (stock::Pattern::Plain, stock::Film::Bare | stock::Film::BothSides) => "",
    }
}

/// A bent part laid on its face would have its bends marked on the wrong face, up for down.
fn bent_and_mirrored(flat: &FlatPattern) -> Problem {
    let wrong = format!(
        "it has {}: on a copy cut from the other face, up and down would be wrong",
        counted(flat.bends.len(), "bend")
    );
    Problem::new("mirror", "allowed", wrong, "take it out: only a plate without bends may be turned over")
}

/// The field that most likely governs a flat that cannot be laid out.
fn unfold_problem(
    recipe: &dyn Recipe,
    error: &flat::UnfoldError,
    (held, style): (Option<Length>, LengthStyle),
) -> Problem {
    let field = recipe.tight_field();
    match error {
        flat::UnfoldError::FaceTooShort { face, setback_mm } if *setback_mm <= tolerance::SAME_POINT_MM => {
            let wrong = "nothing straight is left between its corners as they are rounded or cut";
            let remedy = "make it longer, or choose smaller radii";
            Problem::new(field_of(face, recipe), face, wrong, remedy)
        }
        flat::UnfoldError::FaceTooShort { face, setback_mm } => {
            let taken = Length::from_millimetres(*setback_mm);
            let setback = taken.print(finer(style));
            let wrong = format!("too short for its bends: each takes its setback of {setback} from it");
            let held = held.filter(|held| taken < *held).map_or_else(String::new, |held| {
                format!(", and for the brake to hold it {} or longer", held.print(finer(style)))
            });
            let remedy =
                format!("make it longer than {setback} for each{held}; or choose a smaller inside radius");
            Problem::new(field_of(face, recipe), face, wrong, remedy)
        }
        flat::UnfoldError::Overlap { first, second } => {
            let value = format!("{first} and {second}");
            let remedy = "stop one of them short, open the seam gap, or make the part in pieces";
            Problem::new(field, value, "overlap in the flat: they cannot come out of one piece", remedy)
        }
        flat::UnfoldError::InsideCorner { face, .. } => {
            let remedy = "stop the flange short of the corner";
            Problem::new(field, face, "a flange of it runs into an inside corner", remedy)
        }
        flat::UnfoldError::ReliefTooLarge { radius_mm, what, faces, largest_mm } => {
            let print = |radius: f64| Length::from_millimetres(2.0 * radius).print(finer(style));
            let wrong =
                format!("a relief hole of that diameter, between {} and {}, {what}", faces[0], faces[1]);
            let remedy = largest_mm.map_or_else(
                || "ask for square relief: no hole fits".to_owned(),
                |largest| {
                    format!(
                        "the largest that works is just under {}; or ask for square relief",
                        print(largest)
                    )
                },
            );
            Problem::new("shop.relief", print(*radius_mm), wrong, remedy)
        }
        flat::UnfoldError::ReliefNeeded { faces, why } => {
            let why = match why {
                flat::ReliefNeed::Thick { most_mm } => {
                    let most = Length::from_millimetres(*most_mm).print(finer(style));
                    format!("sheet thicker than {most} tears where bends meet unrelieved")
                }
                flat::ReliefNeed::Turn { .. } | flat::ReliefNeed::Opposed => why.to_string(),
            };
            let value = format!("none, between {} and {}", faces[0], faces[1]);
            Problem::new("shop.relief", value, why, "ask for square, round or tear_drop relief")
        }
    }
}

/// The field that gives a face its size, where its name tells; else the tight one.
fn field_of(face: &str, recipe: &dyn Recipe) -> String {
    match face.split_once(' ') {
        Some(("flange", side)) if recipe.tight_field() == "flanges" => format!("flanges.{side}"),
        _ => recipe.field_of_face(face).to_owned(),
    }
}

/// Faces of the part as designed that run into one another.
fn collision_problem(recipe: &dyn Recipe, error: &RefoldError, style: LengthStyle) -> Problem {
    let field = recipe.tight_field();
    let RefoldError::RunsInto { first, second, depth_mm } = error else {
        return Problem::new(field, "as given", error.to_string(), "check its sizes");
    };
    let depth = Length::from_millimetres(*depth_mm).print(finer(style));
    let wrong = format!("run into one another by {depth} when folded");
    let remedy = "shorten one of them, stop it short of its corners, or lessen its turn";
    Problem::new(field, format!("{first} and {second}"), wrong, remedy)
}

/// What a shape says of its own sizes, as a caution.
fn shape_finding(problem: Problem) -> Finding {
    let Problem { field, value, wrong, remedy } = problem;
    Finding { rule: "shape", severity: Severity::Caution, place: field, measured: value, wrong, remedy }
}

fn finding_problem(finding: &Finding) -> Problem {
    let Finding { place, measured, wrong, remedy, .. } = finding;
    Problem::new(place, measured, wrong, remedy)
}

/// Bend numbers and thicknesses are read to thousandths whatever the tape.
pub(crate) fn finer(style: LengthStyle) -> LengthStyle {
    match style {
        LengthStyle::Tape { .. } | LengthStyle::Inches { .. } => LengthStyle::Inches { places: 3 },
        LengthStyle::Millimetres { .. } => LengthStyle::Millimetres { places: 2 },
    }
}

/// Thicknesses by caliper read to ten-thousandths of an inch or hundredths of a millimetre.
pub(crate) const fn caliper(unit: LengthUnit) -> LengthStyle {
    match unit {
        LengthUnit::Inch => LengthStyle::Inches { places: 4 },
        LengthUnit::Millimetre => LengthStyle::Millimetres { places: 2 },
    }
}
