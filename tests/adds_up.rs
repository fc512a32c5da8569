//! Every report of every demo job, read again as it prints, adds up to the last digit.
#![expect(clippy::disallowed_methods, reason = "a test of fixtures reads them")]

use std::fs;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::program::{plateloft, plateloft_in, top};

/// A printed table: headings, and rows of cells; true for a sum.
struct Table {
    headings: Vec<String>,
    rows: Vec<(Vec<String>, bool)>,
}

/// A number as printed, in counts of its last digit, and how many digits stand behind the point.
fn printed(cell: &str) -> Option<(i128, u32)> {
    let digits = cell.trim();
    let (whole, rest) = digits.split_once('.').unwrap_or((digits, ""));
    let plain = |text: &str| text.chars().all(|letter| letter.is_ascii_digit());
    let sound = plain(whole.strip_prefix('-').unwrap_or(whole)) && plain(rest);
    let count = format!("{whole}{rest}").parse().ok()?;
    sound.then(|| (count, u32::try_from(rest.len()).unwrap()))
}

/// Where the columns of a rule begin and end.
fn columns(rule: &str) -> Option<Vec<(usize, usize)>> {
    if rule.is_empty() || !rule.chars().all(|letter| letter == '-' || letter == ' ') || !rule.contains('-') {
        return None;
    }
    let letters: Vec<char> = rule.chars().collect();
    let mut found = Vec::new();
    let mut begun = None;
    for (place, letter) in letters.iter().chain([&' ']).enumerate() {
        match (begun, letter) {
            (None, '-') => begun = Some(place),
            (Some(start), ' ') => {
                found.push((start, place));
                begun = None;
            }
            _ => {}
        }
    }
    Some(found)
}

fn cells(line: &str, columns: &[(usize, usize)]) -> Vec<String> {
    let letters: Vec<char> = line.chars().collect();
    let cell = |&(from, to): &(usize, usize)| {
        letters.iter().skip(from).take(to - from).collect::<String>().trim().to_owned()
    };
    columns.iter().map(cell).collect()
}

/// Every table of a text. A line whose numbers are all missing goes on with the words of the one before.
fn tables(text: &str) -> Vec<Table> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    let mut place = 0;
    while place < lines.len() {
        let Some(columns) = columns(lines[place]).filter(|_| 0 < place && !lines[place - 1].is_empty())
        else {
            place += 1;
            continue;
        };
        let above = (0..place).rev().take_while(|&line| !lines[line].is_empty()).last().unwrap();
        let heading = |column: usize| {
            let words: Vec<String> =
                lines[above..place].iter().map(|line| cells(line, &columns)[column].clone()).collect();
            words.join(" ").trim().to_owned()
        };
        let headings = (0..columns.len()).map(heading).collect();
        let mut rows = Vec::new();
        let mut is_sum = false;
        place += 1;
        while place < lines.len() && !lines[place].is_empty() {
            if self::columns(lines[place]).is_some() {
                is_sum = true;
            } else {
                rows.push((cells(lines[place], &columns), is_sum));
                is_sum = false;
            }
            place += 1;
        }
        found.push(Table { headings, rows });
    }
    found
}

/// Columns that add up: weights, areas, money, moments and counts. Places, lengths and prices of one do not.
fn adds(heading: &str) -> bool {
    let unit = [", lb", ", kg", ", ft2", ", m2", ", in-lb", ", N·m", ", N m"]
        .iter()
        .any(|unit| heading.ends_with(unit));
    let named = ["money", "goods", "pieces", "count", "credit", "lb", "kg"].contains(&heading);
    (unit && !heading.starts_with("each")) || named
}

/// What does not add up in a table, and how many sums were redone. A sum takes the rows above it, and the sum before.
fn wrong_sums(table: &Table) -> (Vec<String>, usize) {
    let mut wrong = Vec::new();
    let mut redone = 0;
    for (column, heading) in table.headings.iter().enumerate().filter(|(_, heading)| adds(heading)) {
        let mut running = 0;
        let mut open = false;
        for (cells, is_sum) in &table.rows {
            let cell = &cells[column];
            if cell == "open" || cell == "no price" {
                open = true;
            }
            let Some((count, _)) = printed(cell) else { continue };
            if !is_sum {
                running += count;
                continue;
            }
            // A sum over open lines that is printed all the same is of those that are known, and says so.
            let is_known = !open || cells.iter().any(|cell| cell.starts_with("known so far"));
            redone += usize::from(is_known);
            if is_known && running != count {
                wrong.push(format!("{heading}: {running} is not {count}: {}", cells.join(" | ")));
            }
            running = count;
        }
    }
    (wrong, redone)
}

/// Adds up every table of a text and gives how many sums there were.
fn add_up(what: &str, text: &str) -> usize {
    let mut redone = 0;
    for table in tables(text) {
        let (wrong, sums) = wrong_sums(&table);
        assert!(wrong.is_empty(), "{what}: {wrong:?}\n{text}");
        redone += sums;
        // Choices of sheets: bought = used + kept + scrapped in every row.
        let find = |name: &str| table.headings.iter().position(|heading| heading.starts_with(name));
        if let (Some(bought), Some(used), Some(kept), Some(lost)) =
            (find("bought"), find("used"), find("kept"), find("scrapped"))
        {
            let rack = find("of the rack");
            for (cells, _) in &table.rows {
                let number = |column: usize| printed(&cells[column]).map(|(count, _)| count);
                if let Some(all) = number(bought) {
                    let all = all + rack.map_or(0, |column| number(column).unwrap());
                    let parts = [used, kept, lost].map(|column| number(column).unwrap());
                    assert_eq!(parts.iter().sum::<i128>(), all, "{what}: {}", cells.join(" | "));
                    redone += 1;
                }
            }
        }
    }
    redone
}

/// Every choice as an order of its own: goods, minimum, cuts, freight, delivery and tax come to all of it.
fn add_up_orders(what: &str, text: &str) -> usize {
    let mut redone = 0;
    for table in tables(text) {
        let find = |name: &str| table.headings.iter().position(|heading| heading == name);
        let sums = ["goods", "minimum", "cuts", "long freight", "delivery", "tax"].map(find);
        let (Some(all), true) = (find("all"), sums.iter().all(Option::is_some)) else { continue };
        for (cells, _) in &table.rows {
            let Some((total, _)) = printed(&cells[all]) else { continue };
            let parts = sums.iter().flatten().map(|&column| printed(&cells[column]).unwrap().0);
            assert_eq!(parts.sum::<i128>(), total, "{what}: {}", cells.join(" | "));
            redone += 1;
        }
    }
    redone
}

fn said(arguments: &[&str]) -> String {
    let run = plateloft(arguments);
    assert_eq!(run.code, 0, "{arguments:?}: {}", run.stderr);
    run.stdout
}

/// Counts of the last digit in one column, of the rows that `wanted` takes.
fn column(text: &str, heading: &str, wanted: impl Fn(&[String]) -> bool) -> Vec<i128> {
    let mut found = Vec::new();
    for table in tables(text) {
        let Some(column) = table.headings.iter().position(|known| known.starts_with(heading)) else {
            continue;
        };
        let rows = table.rows.iter().filter(|(cells, _)| wanted(cells));
        found.extend(rows.filter_map(|(cells, _)| printed(&cells[column])).map(|(count, _)| count));
    }
    found
}

/// The order has the area that `buy` takes, and the quote charges the goods that `buy` orders.
fn agree(job: &str, bought: &str, ordered: &str, quoted: &str) {
    let area: i128 = column(bought, "bought", |cells| cells[0] == "buy").iter().sum();
    let line = ordered.lines().find(|line| line.starts_with("area ")).unwrap();
    let in_all = line.split_whitespace().nth(1).and_then(printed).unwrap().0;
    assert_eq!(area, in_all, "{job}: area ordered");
    let goods = column(bought, "money", |cells| cells[0] == "goods");
    let charged = column(quoted, "money", |cells| cells.iter().any(|cell| cell == "bought"));
    if !charged.is_empty() {
        assert_eq!(goods, [charged.iter().sum::<i128>()], "{job}: goods charged");
    }
}

/// Every credit of the scrap report is the printed weight of scrap and trim at the printed rate, and the quote has the same
/// weight and money. How many were redone.
fn add_up_credit(job: &str, report: &str, quoted: &str) -> usize {
    let Some((_, credit)) = report.split_once("Scrap credit at ") else { return 0 };
    let mut words = credit.split_whitespace();
    let (rate, _) = words.next().and_then(printed).unwrap();
    let all = tables(report);
    // A sheet's name stands over its table and among the headings: "skin-1 (60 × 120)".
    let has = |table: &&Table, heading: &str| table.headings.iter().any(|name| name.ends_with(heading));
    let weights = all.iter().filter(|table| has(table, "share of area"));
    // Tables of metals and of all sheets stand behind those of the sheets.
    let lost = weights.map(|table| {
        let is_weight = |name: &String| name.ends_with("lb") || name.ends_with("kg");
        let column = table.headings.iter().position(is_weight).unwrap();
        let lines =
            table.rows.iter().filter(|(cells, _)| ["edge trim", "scrap"].contains(&cells[0].as_str()));
        lines.map(|(cells, _)| printed(&cells[column]).unwrap().0).sum::<i128>()
    });
    let table = all.iter().find(|table| has(table, "credit")).unwrap();
    let mut redone = 0;
    for ((cells, is_sum), lost) in table.rows.iter().zip(lost).filter(|((_, is_sum), _)| !is_sum) {
        let (weight, places) = printed(&cells[1]).unwrap();
        assert_eq!((weight, places, *is_sum), (lost, 2, false), "{job}: {}\n{report}", cells.join(" | "));
        let cents = printed(&cells[2]).unwrap().0;
        assert_eq!((weight * rate + 50) / 100, cents, "{job}: {}", cells.join(" | "));
        redone += 1;
    }
    let (sum, _) = table.rows.last().unwrap();
    let line = quoted.lines().find(|line| line.contains("scrap and edge trim  ")).unwrap();
    assert!(line.contains(&format!("credit for {} ", sum[1])), "{job}: {line}\n{report}");
    assert!(line.ends_with(&format!(" -{}", sum[2])), "{job}: {line}\n{report}");
    redone + 1
}

/// How many sums of one job were redone.
fn add_up_job(job: &str) -> usize {
    let commands = ["buy", "quote", "scrap", "take-off", "weights", "order"];
    let texts = commands.map(|command| said(&[command, job]));
    let mut redone = 0;
    for (command, text) in commands.iter().zip(&texts) {
        let what = format!("{command} {job}");
        let sums = add_up(&what, text) + add_up_orders(&what, text);
        assert!(0 < sums || *command == "order", "{command} {job}: no sum");
        redone += sums;
    }
    agree(job, &texts[0], &texts[5], &texts[1]);
    redone + add_up_credit(job, &texts[2], &texts[1]) + add_up_sticks(job) + add_up_rolls(job)
}

/// The list of that name in a job file; empty where it has none.
fn list_of(file: &Value, name: &str) -> Vec<Value> {
    file[name].as_array().cloned().unwrap_or_default()
}

fn written(job: &str) -> Value {
    serde_json::from_str(&fs::read_to_string(top().join(job)).unwrap()).unwrap()
}

/// A length as a job file has it, in inches where it goes by feet or fractions: `240`, `"74"`, `"1/16"`, `"69 1/2"`, `"21'"`.
fn length_of(length: &Value) -> f64 {
    let Some(words) = length.as_str() else { return length.as_f64().unwrap_or(0.0) };
    let (feet, rest) = words.split_once('\'').unwrap_or(("0", words));
    let number = |word: &str| match word.split_once('/') {
        Some((top, bottom)) => top.parse::<f64>().unwrap() / bottom.parse::<f64>().unwrap(),
        None => word.parse().unwrap(),
    };
    12.0 * number(feet) + rest.split_whitespace().map(number).sum::<f64>()
}

/// Every stick is its end trim, its pieces, a cut behind each, and its rest; what is bought costs what its sticks do. How
/// many sums were redone.
fn add_up_sticks(job: &str) -> usize {
    let asked = list_of(&written(job), "bars");
    if asked.is_empty() {
        return 0;
    }
    let answer: Value = serde_json::from_str(&said(&["bars", job, "--json"])).unwrap();
    assert_eq!(answer["units"]["length"], written(job)["units"], "{job}");
    let bars = list_of(&answer, "bars");
    assert_eq!(bars.len(), asked.len(), "{job}");
    let mut redone = 0;
    for (bar, asked) in bars.iter().zip(&asked) {
        let (pieces, sizes) = (list_of(bar, "pieces"), list_of(asked, "sticks"));
        let long = |mark: &Value| {
            pieces.iter().find(|piece| piece["mark"] == *mark).unwrap()["length"].as_f64().unwrap()
        };
        let mut cents = 0.0;
        for stick in list_of(bar, "sticks") {
            let cut = list_of(&stick, "pieces");
            let kerfs = length_of(&asked["kerf"]) * cut.len() as f64;
            let used = length_of(&asked["end_trim"]) + kerfs + cut.iter().map(long).sum::<f64>();
            let (length, rest) = (stick["length"].as_f64().unwrap(), stick["rest"].as_f64().unwrap());
            // Every length is printed to the fourth digit.
            let slack = 0.000_05 * (2.0 + cut.len() as f64);
            assert!((used + rest - length).abs() < slack, "{job}: {used} + {rest}: {stick}");
            let size = sizes.iter().find(|size| (length_of(&size["length"]) - length).abs() < slack).unwrap();
            assert_eq!(size["on_rack"] == true, stick["on_rack"] == true, "{job}: {stick}");
            cents += if stick["on_rack"] == true { 0.0 } else { 100.0 * size["price"].as_f64().unwrap() };
            redone += 1;
        }
        assert!((bar["cost"].as_f64().unwrap() - cents).abs() < 0.5, "{job}: {bar}");
        redone += 1;
    }
    redone
}

/// A roll's area as printed, and in square nanometres: bought = pieces + seams + sides + waste, and that by where it is lost; and its
/// pieces are the job's.
fn add_up_rolls(job: &str) -> usize {
    let asked = list_of(&written(job), "coverings");
    if asked.is_empty() {
        return 0;
    }
    let text = said(&["coverings", job]);
    let begin = |with: &str| -> Vec<&str> { text.lines().filter(|line| line.starts_with(with)).collect() };
    let lines = [begin("Area, "), begin("Waste, ")].concat();
    assert_eq!(lines.len(), 2 * asked.len(), "{job}: {text}");
    for line in lines {
        let numbers: Vec<i128> =
            line.split_whitespace().filter_map(printed).map(|(count, _)| count).collect();
        assert!(2 < numbers.len() && numbers[0] == numbers[1..].iter().sum::<i128>(), "{job}: {line}");
    }
    let answer: Value = serde_json::from_str(&said(&["coverings", job, "--json"])).unwrap();
    for (laid, asked) in list_of(&answer, "coverings").iter().zip(&asked) {
        let exact = |name: &str| laid["exact_areas"][name].as_str().unwrap().parse::<i128>().unwrap();
        let parts: i128 =
            ["pieces", "seam_allowance", "selvedge", "squaring", "waste"].map(exact).iter().sum();
        assert_eq!(exact("bought"), parts, "{job}: {laid}");
        let lost = ["waste_at_pattern_starts", "waste_at_ends", "waste_between"].map(exact);
        assert_eq!(
            (exact("waste"), true),
            (lost.iter().sum(), lost.iter().all(|lost| 0 <= *lost)),
            "{job}: {laid}"
        );
        let wanted: f64 = list_of(asked, "pieces")
            .iter()
            .map(|piece| {
                let quantity = piece["quantity"].as_f64().unwrap_or(1.0);
                quantity * length_of(&piece["size"][0]) * length_of(&piece["size"][1])
            })
            .sum();
        let found = exact("pieces") as f64 / (25.4e6 * 25.4e6);
        assert!((wanted - found).abs() < 0.001, "{job}: {found} of {wanted} in2 are cut");
    }
    2 * asked.len()
}

#[test]
fn every_report_of_every_job_adds_up_as_printed() {
    let folder = top().join("fixtures/jobs");
    let mut jobs: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| format!("fixtures/jobs/{}", entry.unwrap().file_name().to_string_lossy()))
        .collect();
    jobs.sort();
    assert!(jobs.len() >= 8);
    let redone: usize = std::thread::scope(|scope| {
        let half = jobs.len().div_ceil(2);
        let work: Vec<_> = jobs
            .chunks(half)
            .map(|jobs| scope.spawn(|| jobs.iter().map(|job| add_up_job(job)).sum::<usize>()))
            .collect();
        work.into_iter().map(|done| done.join().unwrap()).sum()
    });
    assert!(200 < redone, "only {redone} sums were found");
}

/// What stands in the rack is used and not bought: buy, order and quote say the same then, too.
#[test]
fn reports_with_a_rack_add_up_and_agree() {
    let folder = tempdir().unwrap();
    let job = json!({
        "plateloft": 1, "job": "Rack", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2", "kerf": "1/8", "keep_drop": ["12", "12"] },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "weight": "2 lb/ft2" } },
        "sheets": [{ "metal": "skin", "size": ["48", "96"], "price": 200 },
                   { "metal": "skin", "size": ["60", "120"], "price": 330 }],
        "buying": { "minimum_charge": 100, "over_length": { "longer_than": "97", "freight": 40 }, "delivery": 10, "tax": 5,
                    "drop_value": { "price": 1, "per": "lb" }, "scrap_credit": { "price": ".5", "per": "lb" } },
        "quote": { "material": "bought", "hour": 60, "risk": 0, "markup": 10, "round_up_to": 1, "sales_tax": 0,
                   "valid_until": "2027-01-31",
                   "work": { "lay_out": { "set_up": 1, "each": 1, "second_hand": 0 }, "cut_straight": { "set_up": 1, "each": 1, "second_hand": 0 },
                             "finish": { "set_up": 1, "each": 1, "second_hand": 0 } } },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["22", "20"], "quantity": 10 }]
    });
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    for (mark, size) in [("R1", ["24", "26"]), ("R2", ["23 1/2", "25"])] {
        let fixed =
            ["rack", "add", "--mark", mark, "--metal", "5052-H32", "--thickness", ".125", "--place", "B"];
        let more = ["--date", "2026-03-04", "--face", "good", "--size"];
        let run = plateloft_in(folder.path(), &[&fixed[..], &more, &size].concat());
        assert_eq!(run.code, 0, "{}", run.stderr);
    }
    let texts = ["buy", "quote", "scrap", "order"].map(|command| {
        let run = plateloft_in(folder.path(), &[command, "job.json", "--rack", "rack.json"]);
        assert_eq!(run.code, 0, "{command}: {}", run.stderr);
        let sums = add_up(command, &run.stdout) + add_up_orders(command, &run.stdout);
        assert!(0 < sums || command == "order", "{command}: no sum");
        run.stdout
    });
    // Of two pieces the smaller one first.
    assert!(texts[0].contains("take skin-1 (R2 of the rack"), "{}", texts[0]);
    assert!(!column(&texts[0], "of the rack", |cells| cells[0] == "buy").iter().all(|area| *area == 0));
    agree("with a rack", &texts[0], &texts[3], &texts[1]);
}

#[test]
fn every_stick_is_its_pieces_cuts_and_rest() {
    let folder = tempdir().unwrap();
    let job = json!({
        "plateloft": 1, "job": "Rails", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125" } },
        "parts": [{ "mark": "P", "shape": "plate", "metal": "skin", "size": ["20", "10"] }],
        "bars": [{
            "bar": "pipe", "kerf": ".125", "end_trim": ".5",
            "sticks": [{ "length": "240", "price": 61.5 }, { "length": "90", "price": 30 }],
            "pieces": [{ "mark": "A", "length": "41 1/4", "quantity": 9 }, { "mark": "B", "length": "17 3/8", "quantity": 7 }]
        }]
    });
    fs::write(folder.path().join("job.json"), job.to_string()).unwrap();
    let run = plateloft_in(folder.path(), &["bars", "job.json", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).unwrap();
    let bar = &answer["bars"][0];
    let (mut cut, mut cents) = ([0_u64; 2], 0);
    for stick in bar["sticks"].as_array().unwrap() {
        let pieces = stick["pieces"].as_array().unwrap();
        let mut used = 0.5 + stick["rest"].as_f64().unwrap();
        for piece in pieces {
            let which = usize::from(piece == "B");
            cut[which] += 1;
            used += [41.25, 17.375][which] + 0.125;
        }
        let length = stick["length"].as_f64().unwrap();
        assert!((used - length).abs() < 0.000_05, "{stick}");
        cents += if length < 100.0 { 3_000 } else { 6_150 };
    }
    assert_eq!(cut, [9, 7]);
    assert_eq!(bar["cost"], cents);
    // The order and what it costs are for just those sticks.
    let run = plateloft_in(folder.path(), &["buy", "job.json", "--json"]);
    let bought: Value = serde_json::from_str(&run.stdout).unwrap();
    let sticks = bought["order"].as_array().unwrap().iter();
    let sticks = sticks.filter(|line| line["what"].as_str().unwrap().starts_with("pipe"));
    let paid: i64 =
        sticks.map(|line| line["quantity"].as_i64().unwrap() * line["each_cents"].as_i64().unwrap()).sum();
    assert_eq!(paid, cents);
}

#[test]
fn bars_and_coverings_of_every_shape_add_up_too() {
    let mut redone = 0;
    for entry in fs::read_dir(top().join("fixtures/shapes")).unwrap() {
        let job = format!("fixtures/shapes/{}", entry.unwrap().file_name().to_string_lossy());
        redone += add_up_sticks(&job) + add_up_rolls(&job);
    }
    assert!(3 < redone, "only {redone} sums were found");
}

#[test]
fn the_kit_and_the_rack_s_bars_add_up_too() {
    assert!(0 < add_up("kit", &said(&["kit", "fixtures/jobs/gig-lockers.json"])));
    assert!(4 < add_up("quote --kit", &said(&["quote", "fixtures/jobs/gig-lockers.json", "--kit"])));
}

#[test]
fn a_sum_that_is_off_by_one_is_seen() {
    let text = "order          each   money\n-------------  ----  ------\n2 of a         1.00    2.00\n1 of b, which  3.00    3.00\nis long\n\
                -------------  ----  ------\ngoods                  5.00\ntax                    0.50\n-------------  ----  ------\nall                    5.50\n";
    assert_eq!(add_up("right", text), 2);
    let open = "what          money\n------------  -----\nsheets         open\nwire           2.00\n------------  -----\n\
                known so far   2.00\n";
    assert_eq!(add_up("open", open), 1);
    assert!(!wrong_sums(&tables(&open.replace("far   2.00", "far   2.01"))[0]).0.is_empty());
    for (from, to) in [("5.00\n", "5.01\n"), ("5.50", "5.49"), ("2.00\n", "2.01\n")] {
        let table = &tables(&text.replace(from, to))[0];
        assert!(!wrong_sums(table).0.is_empty(), "{from} as {to} was not seen");
    }
}

/// Rectangles cut to size: the printed weight × the printed price, the printed charge × the rectangles, for every mark of
/// every demo job that compares them.
#[test]
fn every_rectangle_cut_to_size_is_priced_as_it_prints() {
    let mut redone = 0;
    for job in fs::read_dir(top().join("fixtures/jobs")).unwrap() {
        let job = job.unwrap().path();
        if !fs::read_to_string(&job).unwrap().contains("\"cut_to_size\"") {
            continue;
        }
        let text = plateloft(&["buy", job.to_str().unwrap()]).stdout;
        for block in text.split("Whole sheets or cut to size:").skip(1) {
            let block = block.split("\n\n\n").next().unwrap();
            let said = block.split_whitespace().collect::<Vec<_>>().join(" ");
            let after = |words: &str| -> f64 {
                said.split(words).nth(1).unwrap().split_whitespace().next().unwrap().parse().unwrap()
            };
            let [price, charge] = ["Metal is the printed weight × ", "cuts are "].map(after);
            for line in block.lines().filter(|line| line.contains(" of ") && line.contains(" × ")) {
                let mut cells: Vec<&str> = line.split_whitespace().collect();
                let [money, cuts, metal, weight] = [(); 4].map(|()| cells.pop().unwrap().parse::<f64>());
                let (Ok(money), Ok(cuts), Ok(metal), Ok(weight)) = (money, cuts, metal, weight) else {
                    continue;
                };
                let count: f64 = cells[0].parse().unwrap();
                assert!((weight * price - metal).abs() < 0.005 + 1e-6, "{line}: × {price}");
                assert!(
                    (count * charge - cuts).abs() < 1e-6 && (metal + cuts - money).abs() < 1e-6,
                    "{line}"
                );
                redone += 1;
            }
        }
    }
    assert!(5 < redone, "{redone}");
}
