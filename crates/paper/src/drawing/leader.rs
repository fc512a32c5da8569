//! Labels on leaders: where there is no room beside a thing, the label stands off and a thin line leads back.

use geometry::{Point, Vector, polygon};

use super::label::Label;
use super::symbols;
use crate::page::{Item, Pen, TextBox};
use crate::placing::Field;

/// How far off the search for a free place goes, in text heights.
const FARTHEST_EM: u32 = 30;

/// The longest label on a leader, in text heights; longer words are shortened.
const LONGEST_EM: f64 = 32.0;

/// How much smaller a label may be that finds no room otherwise.
const SMALLER: f64 = 0.9;

/// What it costs, in text heights of distance, to lie on something else.
const ASTRAY_COST: f64 = 15.0;

/// What it costs to lie on another face of the part than the one that is named.
const FACE_COST: f64 = 6.0;

/// What it costs to cross a line, and another leader.
const LINE_COST: f64 = 3.0;
const LEADER_COST: f64 = 12.0;

/// What it costs to run far along the paper's own ways, as most edges and bend lines do, and how far that is in text heights: a
/// leader beside a bend line or through a slit is read as a cut.
const EDGE_LIKE_COST: f64 = 16.0;
const EDGE_LIKE_EM: f64 = 8.0;

/// What it costs to pass nearer to other words than this, both in text heights: a leader beside words seems to be theirs.
const NEAR_COST: f64 = 3.0;
const NEAR_EM: f64 = 0.3;

/// What it costs besides where that has the same words.
const ALIKE_COST: f64 = 12.0;

/// What it costs to lie on an extension line, in text heights of distance.
const HAIRLINE_COST: f64 = 12.0;

/// Directions tried from a tip, and those tried where none of them leads anywhere.
const DIRECTIONS: u32 = 16;
const FINE_DIRECTIONS: u32 = 72;

/// A straight piece between two points.
type Piece = (Point, Point);

/// Places `label` as near to one of `tips` as it can, never on text or lines, and takes the room in the field.
///
/// Where the whole neighbourhood is taken the label goes out to the right of `drawing`, the bounds of all that is
/// drawn, where a place can always be found.
pub(crate) fn place(field: &mut Field, label: &Label, tips: &[Point], drawing: (Point, Point)) -> Vec<Item> {
    place_open(field, label, tips, drawing).unwrap_or_else(|| {
        let label = &label.shortened(LONGEST_EM);
        laid(field, label, &far_right(field, label, tips, drawing))
    })
}

/// The same; `None` where no leader reaches the tips, or a place between two of them, clear of words.
pub(crate) fn place_open(
    field: &mut Field,
    label: &Label,
    tips: &[Point],
    drawing: (Point, Point),
) -> Option<Vec<Item>> {
    let placed = place_clear_of(field, label, (tips, &[]), drawing);
    placed.or_else(|| match between(tips).as_slice() {
        [] => None,
        more => place_clear_of(field, label, (more, &[]), drawing),
    })
}

/// Places half-way between any two tips, where a leader may end too: on an edge they lie on it, on a face without hollows in it.
fn between(tips: &[Point]) -> Vec<Point> {
    let pairs = tips.iter().enumerate().flat_map(|(number, a)| tips[..number].iter().map(move |b| (a, b)));
    pairs.map(|(a, b)| a.toward(*b, 0.5)).collect()
}

/// The same, but off all figures of [`Field::add_area`] wherever there is such a place, in reach or outside the drawing.
pub(crate) fn place_off_areas(
    field: &mut Field,
    label: &Label,
    tips: &[Point],
    drawing: (Point, Point),
) -> Vec<Item> {
    let short = label.shortened(LONGEST_EM);
    let found = nearby(field, &short, (tips, &[]), DIRECTIONS).filter(|found| !found.is_astray);
    let found = found.or_else(|| outside(field, &short, (tips, &[]), drawing));
    match found {
        Some(found) => laid(field, &short, &found),
        None => place(field, label, tips, drawing),
    }
}

/// The same, its leader crossing none of the pieces `barred`; `None` where there is no such place.
pub(crate) fn place_clear_of(
    field: &mut Field,
    label: &Label,
    (tips, barred): (&[Point], &[Piece]),
    drawing: (Point, Point),
) -> Option<Vec<Item>> {
    if let Some(items) = place_within_reach(field, label, (tips, barred)) {
        return Some(items);
    }
    let label = &label.shortened(LONGEST_EM);
    let found = outside(field, label, (tips, barred), drawing)?;
    Some(laid(field, label, &found))
}

/// The same in the neighbourhood of the tips alone, a little smaller where that helps.
pub(crate) fn place_within_reach(
    field: &mut Field,
    label: &Label,
    (tips, barred): (&[Point], &[Piece]),
) -> Option<Vec<Item>> {
    let label = &label.shortened(LONGEST_EM);
    // A little smaller beside its thing is better than a leader across the whole drawing.
    let small = Label { size_mm: SMALLER * label.size_mm, ..label.clone() };
    // What a bend does is never set smaller.
    let sizes = if label.bend.is_some() { vec![label] } else { vec![label, &small] };
    for ways in [DIRECTIONS, FINE_DIRECTIONS] {
        for label in sizes.iter().copied() {
            if let Some(found) = nearby(field, label, (tips, barred), ways) {
                return Some(laid(field, label, &found));
            }
        }
    }
    None
}

/// Lays things one by one, by `lay`, in an order in which each finds room; what is stuck comes before all others the next time.
/// `None` where no order was found in so many `tries`; `waiting` is left in the last one.
pub(crate) fn in_some_order<T>(
    field: &mut Field,
    waiting: &mut [T],
    tries: usize,
    lay: impl Fn(&mut Field, &T) -> Option<Vec<Item>>,
) -> Option<Vec<Item>> {
    for _ in 0..tries {
        let mut tried = field.clone();
        let (mut items, mut stuck) = (Vec::new(), Vec::new());
        for (number, thing) in waiting.iter().enumerate() {
            match lay(&mut tried, thing) {
                Some(own) => items.extend(own),
                None => stuck.push(number),
            }
        }
        if stuck.is_empty() {
            *field = tried;
            return Some(items);
        }
        // What finds no place on the empty drawing finds none in any order.
        if stuck[0] == 0 {
            return None;
        }
        stuck.into_iter().for_each(|number| waiting[..=number].rotate_right(1));
    }
    None
}

/// The same, but only where the neighbourhood has room.
pub(crate) fn place_near(field: &mut Field, label: &Label, tips: &[Point]) -> Option<Vec<Item>> {
    let found = nearby(field, label, (tips, &[]), DIRECTIONS)?;
    Some(laid(field, label, &found))
}

/// The nearest clear places tried straight along `way` from a tip, in text heights.
const STRAIGHT_EM: [f64; 9] = [2.0, 2.5, 3.0, 3.6, 4.3, 5.0, 6.0, 7.5, 9.0];

/// Places `label` straight along `way` from `tip`, off extension lines, at the first distance that has room; `None` where none
/// has.
pub(crate) fn place_along(field: &mut Field, label: &Label, tip: Point, way: Vector) -> Option<Vec<Item>> {
    let label = &label.shortened(LONGEST_EM);
    let found = STRAIGHT_EM.into_iter().find_map(|away| {
        let found = candidate(field, label, tip, (away * label.size_mm, way), (0.0, f64::INFINITY))?;
        let room = around(label, found.centre);
        (field.hairlines_through(&room) == 0).then_some(found)
    })?;
    Some(laid(field, label, &found))
}

/// How far off a corner its letter goes, in text heights: first and last distance, and the step between.
const CORNER_EM: (f64, f64, f64) = (1.0, 14.0, 0.5);

/// How much of its leader may lie on the metal, in text heights: as good as none, and where there is no such place a short way.
const CORNER_ON_METAL_EM: [f64; 2] = [0.4, 4.0];

/// Places the letter of `corner`, which none of the `others` lies nearer to, on a leader that does not run across the `metal`;
/// `None` where there is no such place near it.
pub(crate) fn place_at_corner(
    field: &mut Field,
    label: &Label,
    (corner, others): (Point, &[Point]),
    metal: &[Point],
) -> Option<Vec<Item>> {
    let (first, last, step) = CORNER_EM;
    // A corner of the whole that lies off its piece, among the numbers of a row, is shown by the nearest of the metal.
    let corner = if field.runs_through_text((corner, corner)) { nearest_on(metal, corner) } else { corner };
    let is_own = |centre: Point| others.iter().all(|other| centre.distance(corner) < centre.distance(*other));
    let sizes = [1.0, SMALLER];
    for (on_metal, size) in CORNER_ON_METAL_EM.into_iter().flat_map(|em| sizes.map(|size| (em, size))) {
        let label = Label { size_mm: size * label.size_mm, ..label.clone() };
        let on_metal_mm = on_metal * label.size_mm;
        let mut best: Option<Found> = None;
        let mut away = first;
        while away <= last {
            for k in 0..FINE_DIRECTIONS {
                let known = best.as_ref().map_or(f64::INFINITY, |found| found.cost);
                let way = (away * label.size_mm, direction(k, FINE_DIRECTIONS));
                let Some(found) = candidate(field, &label, corner, way, (away, known)) else { continue };
                let foot = foot(&around(&label, found.centre), corner);
                let is_off = run_within_mm(metal, (corner, foot)) <= on_metal_mm;
                if found.cost < known && is_off && is_own(found.centre) {
                    best = Some(found);
                }
            }
            away += step;
        }
        if let Some(found) = best {
            return Some(laid(field, &label, &found));
        }
    }
    None
}

/// The point of a figure's edge nearest to `at`.
fn nearest_on(figure: &[Point], at: Point) -> Point {
    let foot = |(from, to): Piece| {
        let run = to - from;
        from.toward(to, ((at - from).dot(run) / run.dot(run).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0))
    };
    let feet = polygon::edges(figure).map(foot);
    feet.min_by(|a, b| a.distance(at).total_cmp(&b.distance(at))).unwrap_or(at)
}

/// How much of a piece lies within a figure, mm.
fn run_within_mm(figure: &[Point], (from, to): Piece) -> f64 {
    let run = to - from;
    let meets = |(a, b): (Point, Point)| {
        let side = b - a;
        let slope = run.cross(side);
        let (share, on) = ((a - from).cross(side) / slope, (a - from).cross(run) / slope);
        ((0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&on)).then_some(share)
    };
    let mut shares: Vec<f64> = polygon::edges(figure).filter_map(meets).chain([0.0, 1.0]).collect();
    shares.sort_by(f64::total_cmp);
    let inside = shares
        .windows(2)
        .filter(|ends| polygon::contains(figure, from.toward(to, 0.5 * (ends[0] + ends[1]))));
    inside.map(|ends| ends[1] - ends[0]).sum::<f64>() * run.length()
}

fn laid(field: &mut Field, label: &Label, found: &Found) -> Vec<Item> {
    let along = Vector::new(1.0, 0.0);
    let (tip, centre) = (found.tip, found.centre);
    let room = around(label, centre);
    field.take(room);
    let foot = foot(&room, tip);
    field.add_leader(tip, foot, &label.words);
    let mut items = vec![Item::line(tip, foot, Pen::Dimension), symbols::dot(tip, 0.14 * label.size_mm)];
    items.extend(label.items(centre, along));
    items
}

struct Found {
    cost: f64,
    /// Lies on something else.
    is_astray: bool,
    tip: Point,
    centre: Point,
}

impl Found {
    /// True when the leader meets one of these pieces.
    fn crosses(&self, label: &Label, barred: &[Piece]) -> bool {
        let foot = foot(&around(label, self.centre), self.tip);
        barred.iter().any(|&piece| polygon::segments_touch(piece, (self.tip, foot)))
    }
}

/// The room of a level label, with a little air.
fn around(label: &Label, centre: Point) -> TextBox {
    label.room(centre, Vector::new(1.0, 0.0)).grown(0.15 * label.size_mm)
}

fn nearby(
    field: &Field,
    label: &Label,
    (tips, barred): (&[Point], &[Piece]),
    directions: u32,
) -> Option<Found> {
    let mut best: Option<Found> = None;
    let (low, high) = polygon::bounds(tips);
    let reach = f64::from(FARTHEST_EM) * label.size_mm + label.width_mm();
    let field = &field.within(low - Vector::new(reach, reach), high + Vector::new(reach, reach));
    for (rank, &tip) in (0_u32..).zip(tips) {
        // Where so many ways are tried, every other distance does.
        let step = if directions == DIRECTIONS { 1 } else { 2 };
        for ring in (2..=FARTHEST_EM).step_by(step) {
            let base = f64::from(ring) + 0.5 * f64::from(rank);
            if best.as_ref().is_some_and(|found| found.cost <= base) {
                break;
            }
            let distance = f64::from(ring) * label.size_mm;
            // Of what costs the same the first way of the nearest ring looked at last is taken.
            let mut of_ring: Option<Found> = None;
            for k in 0..directions {
                let known = of_ring.as_ref().or(best.as_ref()).map_or(f64::INFINITY, |found| found.cost);
                let way = (distance, direction(k, directions));
                let found = candidate(field, label, tip, way, (base, known));
                let is_less = |found: &Found| of_ring.as_ref().is_none_or(|other| found.cost < other.cost);
                let found = found.filter(is_less).filter(|found| !found.crosses(label, barred));
                of_ring = found.or(of_ring);
            }
            best = of_ring.into_iter().chain(best).min_by(|a, b| a.cost.total_cmp(&b.cost));
        }
    }
    best
}

/// Slanting directions come first: leaders along the edges of a part are easily read as edges.
fn direction(k: u32, of: u32) -> Vector {
    let step = 2.0 * std::f64::consts::PI / f64::from(of);
    Vector::at_angle(step * f64::from((k + of / 8) % of))
}

/// The label with its nearest side so far from the tip that way, if that place is free and costs no more than `known` with what its
/// distance costs, `base`.
fn candidate(
    field: &Field,
    label: &Label,
    tip: Point,
    (distance_mm, direction): (f64, Vector),
    (base, known): (f64, f64),
) -> Option<Found> {
    let reach = Vector::new(
        direction.x * (distance_mm + 0.5 * label.width_mm()),
        direction.y * (distance_mm + 0.5 * label.height_mm()),
    );
    let centre = tip + reach;
    let room = around(label, centre);
    if !field.is_clear(&room) {
        return None;
    }
    let foot = foot(&room, tip);
    // The lines that it begins on do not count; words that it begins in do. Words of bends are laid first, where nothing is in
    // the way yet but one another, and keep off other bend lines before all else.
    if label.bend.is_none() && field.runs_through_text((tip, foot)) {
        return None;
    }
    let leader = (tip + direction * (0.05 * label.size_mm), foot);
    let lines = field.crossings(leader)?;
    // No other cost is below nothing, and all are whole halves of a text height: nothing is rounded.
    if known < base + LINE_COST * count(lines) {
        return None;
    }
    let crossings = cost_of(field, leader, label, lines);
    let hairlines = f64::from(u32::try_from(field.hairlines_through(&room)).ok()?);
    let is_astray = field.lies_on_area(&room);
    let astray = if is_astray { ASTRAY_COST } else { 0.0 };
    let astray = astray + if field.lies_on_face(&room) { FACE_COST } else { 0.0 };
    Some(Found { cost: base + crossings + HAIRLINE_COST * hairlines + astray, is_astray, tip, centre })
}

/// What the leader of a label crosses and passes, in text heights of distance; `None` where it would run through text.
fn crossing_cost(field: &Field, leader: Piece, label: &Label) -> Option<f64> {
    Some(cost_of(field, leader, label, field.crossings(leader)?))
}

/// The same of a leader that crosses so many lines.
fn cost_of(field: &Field, leader: Piece, label: &Label, lines: usize) -> f64 {
    let [all, alike] = field.leaders_crossed(leader, &label.words).map(count);
    let near =
        if label.bend.is_none() { count(field.texts_near(leader, NEAR_EM * label.size_mm)) } else { 0.0 };
    let run = leader.1 - leader.0;
    let is_edge_like =
        run.x.abs().min(run.y.abs()) <= 0.05 * run.length() && EDGE_LIKE_EM * label.size_mm < run.length();
    let edge_like = if is_edge_like { EDGE_LIKE_COST } else { 0.0 };
    edge_like + LINE_COST * count(lines) + LEADER_COST * all + ALIKE_COST * alike + NEAR_COST * near
}

fn count(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::INFINITY, f64::from)
}

/// The nearest free place around the drawing that a leader reaches without running through text or over `barred` pieces.
fn outside(
    field: &Field,
    label: &Label,
    (tips, barred): (&[Point], &[Piece]),
    drawing: (Point, Point),
) -> Option<Found> {
    let mut best: Option<Found> = None;
    for centre in places_around(label, drawing) {
        let room = around(label, centre);
        if !field.is_clear(&room) {
            continue;
        }
        for &tip in tips {
            let away = tip.distance(centre) / label.size_mm;
            if best.as_ref().is_some_and(|best| best.cost <= away) {
                continue;
            }
            let Some(crossings) = crossing_cost(field, (tip, foot(&room, tip)), label) else {
                continue;
            };
            let cost = away + crossings;
            let found = Found { cost, is_astray: false, tip, centre };
            if best.as_ref().is_none_or(|best| cost < best.cost) && !found.crosses(label, barred) {
                best = Some(found);
            }
        }
    }
    best
}

/// Middles of a label in columns left and right of a drawing, and in rows over and under it.
fn places_around(label: &Label, (low, high): (Point, Point)) -> Vec<Point> {
    const COLUMNS: u32 = 4;
    const ROWS: u32 = 12;
    let mut places = Vec::new();
    let step = 0.7 * label.height_mm();
    let steps = |length_mm: f64, step_mm: f64| {
        let last = (length_mm / step_mm).ceil().max(1.0);
        std::iter::successors(Some(0.0), |at| Some(at + 1.0))
            .take_while(move |at| *at <= last)
            .map(move |at| at * step_mm)
    };
    for column in 0..COLUMNS {
        let away = 2.0 * label.size_mm + (0.5 + f64::from(column)) * label.width_mm();
        for x in [low.x - away, high.x + away] {
            places.extend(steps(high.y - low.y, step).map(|down| Point::new(x, high.y - down)));
        }
    }
    for row in 0..ROWS {
        let away = 2.0 * label.size_mm + (0.5 + 1.4 * f64::from(row)) * label.height_mm();
        for y in [high.y + away, low.y - away] {
            let along = steps(high.x - low.x, 0.35 * label.width_mm());
            places.extend(along.map(|along| Point::new(low.x + along, y)));
        }
    }
    places
}

/// How many free places are looked at for one whose leader meets no words.
const FAR_TRIES: usize = 200;

/// The first free place right of the drawing, going down and then out, whose leader meets no words; where none of many has
/// such a leader, the first.
fn far_right(field: &Field, label: &Label, tips: &[Point], (low, high): (Point, Point)) -> Found {
    let first_tip = tips.first().copied().unwrap_or(high);
    let step = 1.4 * label.height_mm();
    let mut centre = Point::new(high.x + 2.0 * label.size_mm + 0.5 * label.width_mm(), high.y);
    let mut first: Option<Point> = None;
    let mut looked = 0;
    loop {
        let room = around(label, centre);
        if field.is_clear(&room) {
            let is_open = |tip: &&Point| crossing_cost(field, (**tip, foot(&room, **tip)), label).is_some();
            let open = tips.iter().find(is_open);
            if let Some(&tip) = open {
                return Found { cost: 0.0, is_astray: false, tip, centre };
            }
            let nearest = *first.get_or_insert(centre);
            looked += 1;
            if FAR_TRIES < looked {
                return Found { cost: 0.0, is_astray: false, tip: first_tip, centre: nearest };
            }
        }
        centre.y -= step;
        if centre.y < low.y {
            centre = Point::new(centre.x + label.width_mm(), high.y);
        }
    }
}

/// The point of the box's edge nearest to the tip, at mid-height where the leader comes from the side.
fn foot(room: &TextBox, tip: Point) -> Point {
    let (low, high) = polygon::bounds(&room.corners);
    let middle = 0.5 * (low.y + high.y);
    if tip.x < low.x {
        Point::new(low.x, middle)
    } else if high.x < tip.x {
        Point::new(high.x, middle)
    } else {
        Point::new(tip.x, tip.y.clamp(low.y, high.y))
    }
}
