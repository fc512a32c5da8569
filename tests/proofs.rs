//! Every least number of sheets that is claimed of a demo job, proved once more by a small program that reads nothing but the
//! plain outlines, and the gap and the turns of the job: by area, by rows of wide parts, and by parts of which no two can
//! share a sheet; of blanks for the shear, by every way of through cuts. It looks at parts as the cells of a board that lie wholly in their metal, and knows nothing of the nest's bounds.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use serde_json::Value;
use tempfile::tempdir;

mod money;
mod sheared;

use crate::program::{plateloft_in, top};
use money::{cheaper_set, offers};

/// The longest side of a cell, mm, and the fewest cells along a side of a part. A rectangle of cells is up to two of them smaller than
/// it could be, each way.
const CELL_MM: f64 = 4.0;
const FEWEST: f64 = 250.0;

/// Lengths no larger than this are rounding, mm.
const NOTHING_MM: f64 = 1e-6;

/// Chords of a round.
const CHORDS: u32 = 32;

type Corner = [f64; 2];

/// A part as its plain outline has it, mm.
#[derive(Debug)]
struct Flat {
    mark: String,
    metal: String,
    quantity: u32,
    loops: Vec<Vec<Corner>>,
}

/// Rectangles that lie in a part's metal, length and width, at one of its turns, and the size of the part there.
#[derive(Debug, Clone)]
struct Lying {
    size: Corner,
    rectangles: Vec<Corner>,
    solid: Vec<Vec<bool>>,
}

#[derive(Debug, Clone)]
struct Looked {
    quantity: u32,
    area: f64,
    /// Length of the edges that the whole part lies on one side of: what lies within a distance beyond them is no part's.
    free_edges: f64,
    lying: Vec<Lying>,
}

fn read(text: &str) -> Flat {
    let mut flat = Flat { mark: String::new(), metal: String::new(), quantity: 0, loops: Vec::new() };
    let mut unit = 1.0;
    for line in text.lines() {
        let words: Vec<&str> = line.split(' ').collect();
        let number = |at: usize| unit * words[at].parse::<f64>().unwrap();
        match words[0] {
            "units" if words[1] == "inch" => unit = 25.4,
            "mark" => flat.mark = words[1].to_owned(),
            "metal" => flat.metal = words[1].trim_end_matches(':').to_owned(),
            "quantity" => flat.quantity = words[1].parse().unwrap(),
            "loop" => flat.loops.push(Vec::new()),
            "start" => flat.loops.last_mut().unwrap().push([number(1), number(2)]),
            "line" => flat.loops.last_mut().unwrap().push([number(2), number(3)]),
            "arc" => {
                let path = flat.loops.last_mut().unwrap();
                let (from, to, centre) =
                    (*path.last().unwrap(), [number(2), number(3)], [number(5), number(6)]);
                path.extend(arc(from, to, centre, words[9] == "ccw"));
            }
            _ => {}
        }
    }
    flat
}

fn arc(from: Corner, to: Corner, centre: Corner, left: bool) -> Vec<Corner> {
    let angle = |p: Corner| geometry::trig::atan2(p[1] - centre[1], p[0] - centre[0]);
    let whole = 2.0 * std::f64::consts::PI;
    let (begin, mut turn) = (angle(from), angle(to) - angle(from));
    match (left, turn <= 0.0) {
        (true, true) => turn += whole,
        (false, false) => turn -= whole,
        _ => {}
    }
    let [x, y] = [from[0] - centre[0], from[1] - centre[1]];
    let radius = (x * x + y * y).sqrt();
    let at = |step: u32| {
        let now = begin + turn * f64::from(step) / f64::from(CHORDS);
        [centre[0] + radius * geometry::trig::cos(now), centre[1] + radius * geometry::trig::sin(now)]
    };
    (1..CHORDS).map(at).chain([to]).collect()
}

fn edges(loops: &[Vec<Corner>]) -> impl Iterator<Item = (Corner, Corner)> {
    loops.iter().flat_map(|path| path.iter().copied().zip(path.iter().copied().cycle().skip(1)))
}

/// Net area: outer loops run counter-clockwise, holes clockwise.
fn area(loops: &[Vec<Corner>]) -> f64 {
    edges(loops).map(|(a, b)| (a[0] * b[1] - b[0] * a[1]) / 2.0).sum()
}

/// Length of the edges of a loop, counter-clockwise, that have all of it on their left.
fn free_edges(path: &[Corner]) -> f64 {
    let is_left = |a: Corner, b: Corner, p: Corner| {
        -NOTHING_MM <= (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    };
    let ends = path.iter().copied().zip(path.iter().copied().cycle().skip(1));
    let free = ends.filter(|&(a, b)| path.iter().all(|&p| is_left(a, b, p)));
    free.map(|(a, b)| ((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1])).sqrt()).sum()
}

fn bounds(loops: &[Vec<Corner>]) -> (Corner, Corner) {
    let all = || loops.iter().flatten();
    let least = |axis: usize| all().map(|p| p[axis]).fold(f64::MAX, f64::min);
    let most = |axis: usize| all().map(|p| p[axis]).fold(f64::MIN, f64::max);
    ([least(0), least(1)], [most(0), most(1)])
}

fn count(number: f64) -> usize {
    format!("{number:.0}").parse().unwrap()
}

/// Sides of the cells of a part.
fn cell(loops: &[Vec<Corner>]) -> Corner {
    let (low, high) = bounds(loops);
    [0, 1].map(|axis| CELL_MM.min((high[axis] - low[axis]) / FEWEST))
}

/// Rows of cells that lie wholly in the metal: no edge comes into them, and their middle is in it.
fn cells(loops: &[Vec<Corner>], cell: Corner) -> Vec<Vec<bool>> {
    let (low, high) = bounds(loops);
    let size = |axis: usize| count(((high[axis] - low[axis] + NOTHING_MM) / cell[axis]).floor());
    let mid = |at: usize, axis: usize| low[axis] + cell[axis] * (f64::from(u32::try_from(at).unwrap()) + 0.5);
    let [half_x, half] = cell.map(|side| side / 2.0 - NOTHING_MM);
    let mut rows = vec![vec![false; size(0)]; size(1)];
    for (at, row) in rows.iter_mut().enumerate() {
        let y = mid(at, 1);
        let crossing = |(a, b): (Corner, Corner)| {
            ((a[1] <= y) != (b[1] <= y)).then(|| a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]))
        };
        let crossings: Vec<f64> = edges(loops).filter_map(crossing).collect();
        // What an edge covers of the row's height, from least to greatest x.
        let covered = |(a, b): (Corner, Corner)| {
            let share = |edge: f64| ((edge - a[1]) / (b[1] - a[1])).clamp(0.0, 1.0);
            if a[1].max(b[1]) <= y - half || y + half <= a[1].min(b[1]) {
                return None;
            }
            let ends = if (a[1] - b[1]).abs() < 1e-9 {
                [a[0], b[0]]
            } else {
                [y - half, y + half].map(|edge| a[0] + (b[0] - a[0]) * share(edge))
            };
            Some((ends[0].min(ends[1]), ends[0].max(ends[1])))
        };
        let covered: Vec<(f64, f64)> = edges(loops).filter_map(covered).collect();
        for (at, cell) in row.iter_mut().enumerate() {
            let x = mid(at, 0);
            let in_metal = crossings.iter().filter(|&&crossing| crossing < x).count() % 2 == 1;
            *cell = in_metal && !covered.iter().any(|&(from, to)| from < x + half_x && x - half_x < to);
        }
    }
    rows
}

/// Square cells that lie in the metal with all eight around them: wherever the part lies, a cell of the sheet is then covered
/// for each of them.
fn solid(loops: &[Vec<Corner>]) -> Vec<Vec<bool>> {
    let rows = cells(loops, [CELL_MM; 2]);
    let is = |x: usize, y: usize| rows.get(y).and_then(|row| row.get(x)).copied().unwrap_or(false);
    let whole =
        |x: usize, y: usize| 0 < x && 0 < y && (0..3).all(|dx| (0..3).all(|dy| is(x + dx - 1, y + dy - 1)));
    (0..rows.len()).map(|y| (0..rows[y].len()).map(|x| whole(x, y)).collect()).collect()
}

/// The same with the cells that lie within the gap of them.
fn grown(solid: &[Vec<bool>], gap: f64) -> Vec<Vec<bool>> {
    if gap < CELL_MM * 1.4143 {
        return solid.to_vec();
    }
    let is = |x: usize, y: usize| solid.get(y).and_then(|row| row.get(x)).copied().unwrap_or(false);
    let near = |x: usize, y: usize| {
        (x.saturating_sub(1)..=x + 1).any(|x| (y.saturating_sub(1)..=y + 1).any(|y| is(x, y)))
    };
    (0..solid.len()).map(|y| (0..solid[y].len()).map(|x| near(x, y)).collect()).collect()
}

/// Rows of cells as bits, the first cell in the lowest bit of the first word.
fn packed(rows: &[Vec<bool>]) -> Vec<Vec<u64>> {
    let word = |cells: &[bool]| cells.iter().rev().fold(0, |word, &cell| word << 1 | u64::from(cell));
    rows.iter().map(|row| row.chunks(64).map(word).collect()).collect()
}

/// A row of so many words, moved on by so many cells.
fn moved_on(row: &[u64], by: i64, words: usize) -> Vec<u64> {
    let word = |at: i64| usize::try_from(at).ok().and_then(|at| row.get(at)).copied().unwrap_or(0);
    let from = |first: i64| {
        let (at, bit) = (first.div_euclid(64), first.rem_euclid(64));
        let next = if bit == 0 { 0 } else { word(at + 1) << (64 - bit) };
        word(at) >> bit | next
    };
    (0_i64..).take(words).map(|at| from(64 * at - by)).collect()
}

/// Whether two parts overlap, or come nearer than the gap, wherever they lie on the sheet: at every shift from one to the other,
/// some row of the one has a cell where the other has one.
fn always_meet(one: &Lying, other: &Lying, sheet: Corner, gap: f64) -> bool {
    let steps = |lying: &Lying, axis: usize| {
        let room = (sheet[axis] - lying.size[axis]) / CELL_MM;
        (0.0 <= room).then(|| i64::try_from(count(room.floor())).unwrap())
    };
    let ranges = [0, 1].map(|axis| Some((-steps(one, axis)?, steps(other, axis)?)));
    let [Some((left, right)), Some((down, up))] = ranges else { return true };
    let one = packed(&grown(&one.solid, gap));
    let other = packed(&other.solid);
    let words = one.first().map_or(0, Vec::len);
    // A row that meets at one shift does so at the next, more often than not.
    let mut likely = 0;
    (left..=right).all(|dx| {
        let other: Vec<Vec<u64>> = other.iter().map(|row| moved_on(row, dx, words)).collect();
        (down..=up).all(|dy| {
            let meets = |row: usize| {
                let at = i64::try_from(row).ok().and_then(|row| usize::try_from(row + dy).ok());
                let own = at.and_then(|at| one.get(at));
                own.is_some_and(|own| own.iter().zip(&other[row]).any(|(own, other)| own & other != 0))
            };
            if likely < other.len() && meets(likely) {
                return true;
            }
            let found = (0..other.len()).find(|&row| meets(row));
            likely = found.unwrap_or(likely);
            found.is_some()
        })
    })
}

/// For every number of rows the longest rectangle of cells, mm.
fn rectangles(loops: &[Vec<Corner>]) -> Vec<Corner> {
    let cell = cell(loops);
    let rows = cells(loops, cell);
    let length = rows.first().map_or(0, Vec::len);
    let mut best = vec![0_usize; rows.len() + 1];
    for first in 0..rows.len() {
        let mut both = vec![true; length];
        for (last, row) in rows.iter().enumerate().skip(first) {
            both.iter_mut().zip(row).for_each(|(both, cell)| *both &= cell);
            let runs = both.split(|cell| !cell).map(<[bool]>::len);
            let longest = runs.max().unwrap_or(0);
            let rows = last + 1 - first;
            best[rows] = best[rows].max(longest);
            if longest == 0 {
                break;
            }
        }
    }
    let mm = |cells: usize, axis: usize| cell[axis] * f64::from(u32::try_from(cells).unwrap());
    let found: Vec<Corner> = best
        .iter()
        .enumerate()
        .filter(|(_, length)| 0 < **length)
        .map(|(rows, &length)| [mm(length, 0), mm(rows, 1)])
        .collect();
    // Some sixty of them, and the highest: enough to choose from.
    let every = found.len().div_ceil(60).max(1);
    let highest = found.last().copied();
    found.into_iter().step_by(every).chain(highest).collect()
}

/// A length as a job has it: "3 1/2", "1/4", "6", 6.
fn length(value: &Value, unit: f64) -> f64 {
    let Some(text) = value.as_str() else { return unit * value.as_f64().unwrap() };
    let word = |word: &str| match word.split_once('/') {
        Some((top, bottom)) => top.parse::<f64>().unwrap() / bottom.parse::<f64>().unwrap(),
        None => word.parse::<f64>().unwrap(),
    };
    unit * text.split(' ').map(word).sum::<f64>()
}

/// The part of the job that a flat comes from: the same mark, or that of the whole, or of the other hand.
fn from_part<'a>(job: &'a Value, mark: &str) -> &'a Value {
    let is = |part: &&Value| {
        let hand = &part["opposite_hand"];
        let marks = [part["mark"].as_str(), hand.as_str(), hand["mark"].as_str()];
        marks.into_iter().flatten().any(|own| mark == own || mark.starts_with(&format!("{own}-")))
    };
    job["parts"].as_array().unwrap().iter().find(is).unwrap_or(&Value::Null)
}

fn looked_at(job: &Value, flat: &Flat) -> Looked {
    let metal = &job["metals"][&flat.metal];
    let has_lay = metal["lay"].is_string() || metal["pattern"] == "tread";
    let part = from_part(job, &flat.mark);
    assert_ne!(part["mirror"], "allowed", "{}: this program turns nothing over", flat.mark);
    let across = part["lay"] == "across";
    let turned = |loops: &[Vec<Corner>]| -> Vec<Vec<Corner>> {
        loops.iter().map(|path| path.iter().map(|&[x, y]| [-y, x]).collect()).collect()
    };
    let both = |loops: Vec<Vec<Corner>>| [turned(&turned(&loops)), loops];
    for field in ["turn_every", "turns_at"] {
        assert!(part[field].is_null(), "{}: this program knows half and quarter turns only", flat.mark);
    }
    let turns = if part["turns"].is_null() { &metal["turns"] } else { &part["turns"] };
    assert_ne!(turns, "any", "{}: this program knows quarter turns only", flat.mark);
    let ways = match (has_lay || turns == "half", across) {
        (true, false) => both(flat.loops.clone()).to_vec(),
        (true, true) => both(turned(&flat.loops)).to_vec(),
        (false, _) => [both(flat.loops.clone()), both(turned(&flat.loops))].concat(),
    };
    let lying = ways.iter().map(|loops| {
        let (low, high) = bounds(loops);
        Lying {
            size: [high[0] - low[0], high[1] - low[1]],
            rectangles: rectangles(loops),
            solid: solid(loops),
        }
    });
    Looked {
        quantity: flat.quantity,
        area: area(&flat.loops),
        free_edges: free_edges(&flat.loops[0]),
        lying: lying.collect(),
    }
}

/// What is proved of sheets of these sizes, all trimmed, by three arguments; no more of them than are needed for what is claimed.
fn least_sheets(parts: &[Looked], sizes: &[Corner], gap: f64, claimed: u32) -> u32 {
    let most = |axis: usize| sizes.iter().map(|size| size[axis]).fold(0.0, f64::max);
    let sheet = [most(0), most(1)];
    let up = |number: f64| u32::try_from(count((number - 1e-6).ceil().max(1.0))).unwrap();
    let bought: f64 = parts.iter().map(|part| f64::from(part.quantity) * part.area).sum();
    let largest = sizes.iter().map(|size| size[0] * size[1]).fold(0.0, f64::max);
    let mut least = up(bought / largest);
    for along in [0, 1] {
        let across = 1 - along;
        // How long the part is, at least, where it is more than half as wide as the sheet.
        let in_row = |part: &Looked| {
            let fitting =
                part.lying.iter().filter(|lying| lying.size[0] <= sheet[0] && lying.size[1] <= sheet[1]);
            let wide = fitting.map(|lying| {
                let wide =
                    lying.rectangles.iter().filter(|rectangle| sheet[across] < 2.0 * rectangle[across]);
                wide.map(|rectangle| rectangle[along] + gap).fold(0.0, f64::max)
            });
            let least = wide.fold(f64::MAX, f64::min);
            if least < f64::MAX { least } else { 0.0 }
        };
        let rows: Vec<(f64, f64)> =
            parts.iter().map(|part| (f64::from(part.quantity), in_row(part))).collect();
        least =
            least
                .max(up(rows.iter().map(|(quantity, length)| quantity * length).sum::<f64>()
                    / (sheet[along] + gap)));
        for (quantity, length) in rows.iter().filter(|(_, length)| 0.0 < *length) {
            least = least.max(up(quantity / ((sheet[along] + gap) / length).floor().max(1.0)));
        }
    }
    // The last argument takes long, and is left out where the first two do.
    if claimed <= least {
        return least;
    }
    let apart = |one: &Looked, other: &Looked| {
        one.lying.iter().all(|a| other.lying.iter().all(|b| always_meet(a, b, sheet, gap)))
    };
    let copies = |part: &Looked| if apart(part, part) { part.quantity } else { 1 };
    for first in 0..parts.len() {
        let mut group = vec![&parts[first]];
        for part in parts {
            if group.iter().all(|own| !std::ptr::eq(*own, part) && apart(own, part)) {
                group.push(part);
            }
        }
        least = least.max(group.into_iter().map(copies).sum());
    }
    least
}

/// "48 × 96": the sides of a sheet in the order of the drawing, the longer one along x.
fn size_of(name: &str, unit: f64) -> Option<Corner> {
    let (width, long) = name.split_once(" × ")?;
    let side = |text: &str| length(&Value::from(text.trim()), unit);
    let mut sides = [side(width), side(long)];
    sides.sort_by(f64::total_cmp);
    Some([sides[1], sides[0]])
}

fn claims(path: &Path) -> Vec<String> {
    let job: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let run = plateloft_in(&top(), &["packet", path.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}: {}", path.display(), run.stderr);
    let unit = if job["units"] == "inch" { 25.4 } else { 1.0 };
    let nest: Value = serde_json::from_str(&fs::read_to_string(out.join("nest.json")).unwrap()).unwrap();
    let outlines = fs::read_dir(out.join("parts")).unwrap().map(|entry| entry.unwrap().path());
    let outlines = outlines.filter(|path| path.extension().is_some_and(|ending| ending == "txt"));
    let flats: Vec<Flat> = outlines.map(|path| read(&fs::read_to_string(path).unwrap())).collect();
    // Where one cut may serve two parts, they are a kerf apart there.
    let apart = if job["shop"]["shared_cuts"] == true { "kerf" } else { "gap" };
    let [gap, trim] = [apart, "edge_trim"].map(|field| length(&job["shop"][field], unit));
    let mut checked = Vec::new();
    for metal in nest["metals"].as_array().unwrap() {
        let name = metal["metal"].as_str().unwrap();
        let rows = metal["comparison"].as_array().unwrap();
        if rows.iter().all(|row| row["least_sheets"].as_u64().unwrap_or(1) < 2) {
            continue;
        }
        let own = flats.iter().filter(|flat| flat.metal == name);
        let parts: Vec<Looked> = own.map(|flat| looked_at(&job, flat)).collect();
        let trimmed = |size: Corner| size.map(|side| side - 2.0 * trim);
        let sizes: BTreeMap<&str, Corner> = rows
            .iter()
            .filter_map(|row| row["sheets_of"].as_str())
            .filter_map(|name| Some((name, trimmed(size_of(name, unit)?))))
            .collect();
        for row in rows {
            let Some(claimed) = row["least_sheets"].as_u64().filter(|least| 1 < *least) else { continue };
            let of = row["sheets_of"].as_str().unwrap();
            let by = &row["least_sheets_proved_by"];
            let sizes: Vec<Corner> =
                sizes.get(of).map_or_else(|| sizes.values().copied().collect(), |size| vec![*size]);
            let claimed = u32::try_from(claimed).unwrap();
            let proved = least_sheets(&parts, &sizes, gap, claimed);
            assert!(
                claimed <= proved,
                "{}: {name}, {of}: {claimed} claimed by {by}, {proved} proved here",
                path.display()
            );
            checked.push(by.as_str().unwrap().to_owned());
        }
        let Some(offers) = offers((&job, unit), name, trim) else { continue };
        let mix = rows
            .iter()
            .filter(|row| row["mix"] == true)
            .find_map(|row| row["least_cents_of_these_sizes"].as_u64());
        if let Some(claimed) = mix {
            let on_the_shear = !job["shop"]["cutting"].is_null() && job["shop"]["cutting"] != "by hand";
            let cheaper = cheaper_set(&parts, &offers, (gap, on_the_shear), claimed);
            assert_eq!(cheaper, None, "{}: {name}: {claimed} cents claimed", path.display());
            checked.push("money".to_owned());
        }
    }
    checked
}

#[test]
fn every_least_number_of_sheets_claimed_of_a_demo_job_is_proved_anew() {
    let jobs = fs::read_dir(top().join("fixtures/jobs")).unwrap().map(|entry| entry.unwrap().path());
    let mut jobs: Vec<_> =
        jobs.filter(|path| path.extension().is_some_and(|ending| ending == "json")).collect();
    jobs.sort();
    let mut checked: Vec<String> = jobs.iter().flat_map(|path| claims(path)).collect();
    assert!(12 <= checked.len(), "{checked:?}");
    checked.sort();
    checked.dedup();
    assert!(3 <= checked.len() && checked.contains(&"money".to_owned()), "{checked:?}");
}

fn block(length: f64, width: f64, quantity: u32) -> Looked {
    let loops = vec![vec![[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]];
    let lying = Lying { size: [length, width], rectangles: rectangles(&loops), solid: solid(&loops) };
    Looked { quantity, area: area(&loops), free_edges: free_edges(&loops[0]), lying: vec![lying] }
}

/// The program itself, on what can be worked out by hand.
#[test]
fn the_program_that_proves_anew_counts_right() {
    let sheet = [[1000.0, 500.0]];
    assert_eq!(least_sheets(&[block(500.0, 500.0, 5)], &sheet, 0.0, 3), 3, "by area");
    assert_eq!(least_sheets(&[block(400.0, 300.0, 5)], &sheet, 0.0, 3), 3, "in a row, two to the sheet");
    assert_eq!(
        least_sheets(&[block(600.0, 300.0, 2), block(520.0, 260.0, 1)], &sheet, 0.0, 3),
        3,
        "each alone"
    );
    assert_eq!(least_sheets(&[block(480.0, 240.0, 4)], &sheet, 0.0, 3), 1, "four to the sheet");
    // Two crosses of 900 always cross on a sheet of 1000 each way, and lie side by side on one of 2000. Of angles with legs of 800,
    // 100 wide, one lies within the other; with legs of 950 there is no room for that.
    let shape = |corners: &[Corner]| {
        let loops = vec![corners.to_vec()];
        let (low, high) = bounds(&loops);
        let size = [high[0] - low[0], high[1] - low[1]];
        Looked {
            quantity: 2,
            area: area(&loops),
            free_edges: free_edges(&loops[0]),
            lying: vec![Lying { size, rectangles: rectangles(&loops), solid: solid(&loops) }],
        }
    };
    let cross = shape(&[
        [400.0, 0.0],
        [500.0, 0.0],
        [500.0, 400.0],
        [900.0, 400.0],
        [900.0, 500.0],
        [500.0, 500.0],
        [500.0, 900.0],
        [400.0, 900.0],
        [400.0, 500.0],
        [0.0, 500.0],
        [0.0, 400.0],
        [400.0, 400.0],
    ]);
    let angle =
        |leg: f64| shape(&[[0.0, 0.0], [leg, 0.0], [leg, 100.0], [100.0, 100.0], [100.0, leg], [0.0, leg]]);
    let sheets = |part: Looked, side: Corner| least_sheets(&[part], &[side], 0.0, 2);
    assert_eq!(sheets(cross, [1000.0, 1000.0]), 2, "crosses");
    assert_eq!(sheets(angle(800.0), [1000.0, 1000.0]), 1, "within one another");
    assert_eq!(sheets(angle(950.0), [1000.0, 1000.0]), 2, "no room within");
    assert_eq!(sheets(angle(950.0), [2000.0, 1000.0]), 1, "side by side");
    let frame = vec![
        vec![[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]],
        vec![[20.0, 20.0], [20.0, 80.0], [80.0, 80.0], [80.0, 20.0]],
    ];
    assert!((area(&frame) - 6400.0).abs() < 1e-9);
    let widest = rectangles(&frame).into_iter().filter(|r| 20.0 < r[1]).map(|r| r[0]).fold(0.0, f64::max);
    assert!(widest <= 20.0, "no rectangle reaches over the hole: {widest}");
}
