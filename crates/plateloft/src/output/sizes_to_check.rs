//! Sizes to check on a finished part with tape, square and bevel.

use fold::refold::ProvenSize;
use geometry::{Point, Point3, Vector3, polygon, tolerance};
use job::ShapeInput;
use paper::layout_sheet::Fact;
use shapes::FaceSide;
use shapes::deck::{Deck, DeckStation, width_at};
use shapes::hopper::Hopper;
use units::{Angle, Length};

use super::angles_to_check::inside_angles;
use super::corners;
use super::corners_to_check::{corners_from_base, side_of_console, sides_and_widths};
use super::drawings::fact_words;
use super::legs_to_check::{diagonals, legs};
use super::mouth_to_check::mouth;
use crate::plan::{Flats, PlannedPart, box_round, reach_of, round_of};

/// What the shape asks of the finished part, and the box that it stands in.
pub(super) fn sizes_to_check(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let proven = proven_sizes(flats, part);
    let boxed = over_all(flats, part);
    let square = diagonals(flats, part, &proven);
    let more = match &part.part.shape {
        ShapeInput::Hopper(hopper) => {
            let piece = hopper_piece(flats, part);
            // A face goes by its cut edges and diagonals.
            let legs = legs(flats, part, &piece).into_iter().filter(|leg| !leg.name.starts_with("face "));
            let legs: Vec<Fact> = legs.collect();
            let whole = hopper_whole(flats, part, hopper);
            return piece.into_iter().chain(legs).chain([boxed]).chain(whole).collect();
        }
        ShapeInput::Deck(deck) => {
            let widths = widths(flats, part, deck);
            let mut proven = outboard_flanges_as_one(proven);
            proven.retain(|fact| !fact.name.starts_with("width at station "));
            return proven
                .into_iter()
                .chain(widths)
                .chain(inside_angles(part))
                .chain(square)
                .chain([boxed])
                .collect();
        }
        ShapeInput::Panel(panel) => sides_and_widths(flats, panel, &proven),
        ShapeInput::Console(console) => side_of_console(flats, part, console),
        ShapeInput::Bulkhead(_) => corners_from_base(flats, part),
        _ => diameters(flats, part),
    };
    let is_ring = is_pan_or_lid(part);
    let mut legs = if is_ring { Vec::new() } else { legs(flats, part, &proven) };
    if matches!(part.part.shape, ShapeInput::SetBox(_)) && part.part.piece_of.is_none() {
        // Its plates go by the edges between them, which are all proven sizes.
        legs.retain(|leg| ["rim ", "door lip "].iter().any(|what| leg.name.starts_with(what)));
    }
    let proven = if is_ring { alike_as_one(proven) } else { proven };
    let all = proven.into_iter().chain(mouth(flats, part)).chain(more).chain(legs);
    all.chain(inside_angles(part)).chain(square).chain([boxed]).collect()
}

/// Whether its walls, slopes and rims are proven sizes of their own.
fn is_pan_or_lid(part: &PlannedPart) -> bool {
    let word = part.part.shape.recipe().word();
    let is_pan_of_tray = word == "tray" && part.part.piece_of.as_ref().is_some_and(|piece| piece.number == 0);
    word == "pan" || word.ends_with("lid") || is_pan_of_tray
}

/// Sizes that are the same at every side as one row: rise, depths of skirts, widths of rims.
fn alike_as_one(sizes: Vec<Fact>) -> Vec<Fact> {
    let mut kept: Vec<Fact> = Vec::new();
    let sides = ["rise of the top over rim ", "depth of skirt ", "width of rim "];
    let of = |fact: &Fact, what: &str| fact.name.starts_with(what);
    let alike = |what: &str| {
        let mut all = sizes.iter().filter(|fact| of(fact, what));
        all.next().is_some_and(|first| all.all(|fact| fact.value == first.value))
    };
    let one: Vec<&str> = sides.into_iter().filter(|what| alike(what)).collect();
    // The side's letters follow, then what holds of all: ", from the outside of its wall".
    let split = |name: &'_ str, what: &str| -> (String, String) {
        let behind = &name[what.len()..];
        let (side, rest) = behind.split_at(behind.find([',', ' ']).unwrap_or(behind.len()));
        (side.to_owned(), rest.to_owned())
    };
    for fact in &sizes {
        let Some(what) = one.iter().find(|what| of(fact, what)) else {
            kept.push(fact.clone());
            continue;
        };
        if kept.iter().any(|known| of(known, what)) {
            continue;
        }
        let all = sizes.iter().filter(|other| of(other, what));
        let sides: Vec<String> = all.map(|other| split(&other.name, what).0).collect();
        let (_, rest) = split(&fact.name, what);
        kept.push(Fact { name: format!("{what}{}{rest}", sides.join(", ")), ..fact.clone() });
    }
    kept
}

/// Sizes of a piece of a hopper that is not bent, for its layout sheet; none for any other part.
pub(super) fn flat_hopper_sizes(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    match &part.part.shape {
        ShapeInput::Hopper(hopper) if part.flat.bends.is_empty() => {
            let whole = hopper_whole(flats, part, hopper);
            hopper_piece(flats, part).into_iter().chain(whole).collect()
        }
        _ => Vec::new(),
    }
}

/// Every size that refolding proves.
fn proven_sizes(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let natural = part.part.shape.recipe().natural_face();
    let is_hopper = matches!(part.part.shape, ShapeInput::Hopper(_));
    let name = |size: &ProvenSize| {
        let said = said_side(&size.name, natural);
        match said.split_once(" to ") {
            // Only edges between two plates are measured on one side of the metal.
            Some((plate, other)) if is_hopper && said != size.name => {
                format!("{plate} to {other}, corner to corner (the fold stops short of both)")
            }
            _ => said,
        }
    };
    let fact = |size: &ProvenSize| Fact {
        name: name(size),
        value: Length::from_millimetres(size.expected_mm).print(flats.job.style),
        origin: "what the shape asks for; the refolded flat was measured against it".to_owned(),
        ..Fact::default()
    };
    part.proof.sizes.iter().map(fact).collect()
}

/// What is checked on one piece of a hopper.
fn hopper_piece(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let proven = proven_sizes(flats, part);
    std::iter::once(which_side(part)).chain(proven).chain(bevel_and_diagonals(flats, part)).collect()
}

/// What is checked on the whole hopper, once it is welded.
fn hopper_whole(flats: &Flats, part: &PlannedPart, hopper: &Hopper) -> Vec<Fact> {
    let whole = hopper.whole(&part.part.making).into_iter().map(|fact| part.part.of_hand(fact));
    whole.map(|fact| fact_words(&flats.job, &fact)).collect()
}

/// "face AB to leg AB, back" as the shop says it: the recipe's own two sides are the outside and the inside of the part.
fn said_side(name: &str, natural: Option<FaceSide>) -> String {
    let (Some(natural), Some((plates, side))) = (natural, name.rsplit_once(", ")) else {
        return name.to_owned();
    };
    let side = match (side, natural) {
        ("face side", FaceSide::Outside) | ("back", FaceSide::Inside) => "outside",
        ("face side", FaceSide::Inside) | ("back", FaceSide::Outside) => "inside",
        _ => return name.to_owned(),
    };
    format!("{plates}, {side}")
}

/// Which of the two sides that sizes are to is which.
fn which_side(part: &PlannedPart) -> Fact {
    let up = if part.part.is_seen_from_back() { ["inside", "outside"] } else { ["outside", "inside"] };
    Fact {
        name: "sides".to_owned(),
        value: format!("{} is the face up on the layout sheet, {} its back", up[0], up[1]),
        origin: "the marked face".to_owned(),
        ..Fact::default()
    }
}

/// What a tape proves on a rolled round; nothing on any other part.
fn diameters(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let round = round_of(part).map(|round| round.diameters()).unwrap_or_default();
    let fact = |(name, diameter_mm): (&str, f64)| Fact {
        name: name.to_owned(),
        value: Length::from_millimetres(diameter_mm).print(flats.job.style),
        origin: "diameter, thickness; its flat is the development of the middle of the plate".to_owned(),
        ..Fact::default()
    };
    round.into_iter().map(fact).collect()
}

/// The box that the finished part stands in: its root level, or the rim where the top of a lid is crowned.
fn over_all(flats: &Flats, part: &PlannedPart) -> Fact {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let reach = reach_of(part);
    let sizes = |sizes: [f64; 3]| sizes.map(print).join(" × ");
    if let Some(axes) = crowned_axes(part) {
        let along = |axis: Vector3| {
            let reach = reach.iter().map(|&corner| (corner - Point3::default()).dot(axis));
            let ends =
                reach.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)]);
            ends[1] - ends[0]
        };
        let [width, length, height] = axes.map(along);
        return Fact {
            name: "over all as it lies in use, rim level".to_owned(),
            value: sizes([length.max(width), length.min(width), height]),
            origin: "smallest box round the refolded flat, both halves of the top falling alike".to_owned(),
            ..Fact::default()
        };
    }
    let (low, high) = box_round(&reach);
    if round_of(part).is_some() {
        return Fact {
            name: "over all, seam up and level".to_owned(),
            value: sizes([high.x - low.x, high.y - low.y, high.z - low.z]),
            origin: "smallest upright box round the rolled plate, not round the flats between its lines"
                .to_owned(),
            ..Fact::default()
        };
    }
    let root = part.shaped.part.faces.first().map_or("first face", |face| face.name.as_str());
    Fact {
        name: format!("over all, {root} level"),
        value: sizes([high.x - low.x, high.y - low.y, high.z - low.z]),
        origin: "smallest upright box round the refolded flat".to_owned(),
        ..Fact::default()
    }
}

/// Along the crown, across it, and upward of a lid whose two halves fall alike, in the coordinates of its body.
fn crowned_axes(part: &PlannedPart) -> Option<[Vector3; 3]> {
    if !matches!(part.part.shape, ShapeInput::CrownedLid(_)) {
        return None;
    }
    let folded = &part.shaped.part;
    let other = folded.faces.iter().skip(1).position(|face| face.name.starts_with("top "))? + 1;
    let beyond = folded.frames()[other].z;
    let beyond =
        if part.part.is_seen_from_back() { Vector3::new(beyond.x, -beyond.y, beyond.z) } else { beyond };
    let level = Vector3::new(0.0, 0.0, 1.0);
    let (up, along) = ((level + beyond).unit(), level.cross(beyond).unit());
    Some([along, up.cross(along), up])
}

/// The depths of the flanges along the outboard runs of a deck as one row, where all are alike.
fn outboard_flanges_as_one(sizes: Vec<Fact>) -> Vec<Fact> {
    let is_depth = |fact: &&Fact| fact.name.starts_with("depth of flange outboard");
    let depths: Vec<&Fact> = sizes.iter().filter(is_depth).collect();
    let Some(first) = depths.first().filter(|first| depths.iter().all(|fact| fact.value == first.value))
    else {
        return sizes;
    };
    let all = Fact { name: "depth of every outboard flange, outside".to_owned(), ..(*first).clone() };
    let others = sizes.iter().filter(|fact| !is_depth(fact)).cloned();
    std::iter::once(all).chain(others).collect()
}

/// Widths of a deck at the stations on the piece in one row, and both diagonals between its ends: between which edges a tape lies.
fn widths(flats: &Flats, part: &PlannedPart, deck: &Deck) -> Vec<Fact> {
    let print = |length: Length| length.print(flats.job.style);
    let piece = part.part.piece_of.as_ref().map_or(0, |piece| piece.number);
    let stations = deck.stations_on(piece);
    let fact = |name: &str, value: String, origin: &str| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    };
    let [first, .., last] = stations.as_slice() else { return Vec::new() };
    let across = |width: Length| {
        let along = (last.at - first.at).millimetres();
        let long_mm = Point::new(0.0, 0.0).distance(Point::new(along, width.millimetres()));
        Length::from_millimetres(long_mm).print(flats.job.style)
    };
    let (proven, given): (Vec<&DeckStation>, Vec<&DeckStation>) = stations.iter().partition(|station| {
        let name = width_at(station, &part.part.making);
        part.proof.sizes.iter().any(|size| size.name == name)
    });
    let row = |stations: &[&DeckStation]| {
        let each =
            stations.iter().map(|station| format!("{} at {}", print(station.width), print(station.at)));
        each.collect::<Vec<String>>().join(", ")
    };
    let name = "widths at the stations, square from the inboard edge, over the outsides";
    let origin = "stations; square to the inboard edge, over the outsides";
    let mut all = Vec::new();
    if !proven.is_empty() {
        all.push(fact(name, row(&proven), "stations; the refolded flat was measured against them"));
    }
    if !given.is_empty() {
        all.push(fact(&format!("{name}, as the job gives them"), row(&given), origin));
    }
    let from = "stations at both ends, over the outsides";
    all.push(fact("diagonal, inboard aft to outboard forward, over the outsides", across(last.width), from));
    all.push(fact("diagonal, inboard forward to outboard aft, over the outsides", across(first.width), from));
    all
}

/// What bevel and tape prove on a piece of a hopper beside its edges: the inside angle of every bend, and both diagonals of
/// the face between the corners where its outsides meet those of the plates beside it.
fn bevel_and_diagonals(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let name = |face: usize| part.flat.faces[face].name.as_str();
    let angles = part.flat.bends.iter().map(|bend| Fact {
        name: format!("inside angle of {} and {}", name(bend.parent), name(bend.child)),
        value: format!("{}°", Angle::from_radians(std::f64::consts::PI - bend.turn_rad).print(1)),
        origin: "180° less the turn of the bend".to_owned(),
        ..Fact::default()
    });
    angles.chain(hopper_diagonals(flats, part)).collect()
}

/// Both diagonals between the four lettered corners of the face, where all its sides between them are proven sizes; none
/// for any other face.
fn hopper_diagonals(flats: &Flats, part: &PlannedPart) -> Vec<Fact> {
    let mut ring = corners::named(part).letters(&part.flat);
    let (low, high) = polygon::bounds(&ring.iter().map(|(_, at)| *at).collect::<Vec<Point>>());
    let middle = low.toward(high, 0.5);
    ring.sort_by(|a, b| (a.1 - middle).angle().total_cmp(&(b.1 - middle).angle()));
    let [a, b, c, d] = ring.as_slice() else { return Vec::new() };
    let is_proven = |from: Point, to: Point| {
        let off = |size_mm: f64| (size_mm - from.distance(to)).abs();
        part.proof.sizes.iter().any(|size| off(size.expected_mm) <= tolerance::REFOLD_MM)
    };
    let has_own = part.proof.sizes.iter().any(|size| size.name.starts_with("diagonal of "));
    if has_own || ![(a, b), (b, c), (c, d), (d, a)].iter().all(|(from, to)| is_proven(from.1, to.1)) {
        return Vec::new();
    }
    [(a, c), (b, d)]
        .map(|(from, to)| Fact {
            name: format!("diagonal, {} to {}", from.0, to.0),
            value: Length::from_millimetres(from.1.distance(to.1)).print(flats.job.style),
            origin: "between the corners of the face, where outsides meet".to_owned(),
            ..Fact::default()
        })
        .to_vec()
}
