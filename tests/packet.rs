//! The packet: complete, adding up, readable by others, and never half-written.

use roxmltree::Document;
use serde_json::Value;
use tempfile::tempdir;

use crate::outside;
use crate::program::{SKIFF, files, packet_of, packet_of_the_skiff, plateloft, plateloft_on};
use crate::written::{Seen, pdf};

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

#[test]
fn a_packet_is_complete() {
    let packet = packet_of_the_skiff();
    for name in [
        "index.html",
        "packet.pdf",
        "flats.json",
        "cut-list.txt",
        "cut-list.csv",
        "scrap-report.txt",
        "scrap-report.json",
    ] {
        assert!(packet.contains_key(name), "{name} is missing from {:?}", packet.keys());
    }
    let flats: Value = serde_json::from_slice(&packet["flats.json"]).unwrap();
    for part in flats["parts"].as_array().unwrap() {
        let mark = part["mark"].as_str().unwrap();
        assert!(packet.contains_key(&format!("parts/{mark}.svg")), "{mark}");
        assert!(packet.contains_key(&format!("parts/{mark}.txt")), "{mark}");
    }
    assert!(packet.keys().any(|name| name.starts_with("sheets/")));
    assert!(packet.contains_key("folded/L1.svg") && !packet.contains_key("folded/P1.svg"));
    assert!(!packet.keys().any(|name| name.starts_with("models/")), "models come when asked for");
}

/// A whole packet in one PDF: read by another program where there is one, and the same bytes every time.
#[test]
fn one_pdf_holds_the_packet() {
    let folder = tempdir().unwrap();
    let made = |name: &str, paper: &[&str]| {
        let out = folder.path().join(name);
        let run = plateloft(&[&["packet", SKIFF, "--out", out.to_str().unwrap()], paper].concat());
        assert_eq!(run.code, 0, "{}", run.stderr);
        files(&out)["packet.pdf"].clone()
    };
    let (letter, again, a4) = (made("letter", &[]), made("again", &[]), made("a4", &["--paper", "a4"]));
    assert!(letter.starts_with(b"%PDF-") && letter == again && letter != a4);
    let read = |program: &str, name: &str, behind: &[&str]| {
        let path = folder.path().join(name).join("packet.pdf");
        let out = outside::run(program, "poppler-utils", &[&[path.to_str().unwrap()], behind].concat())?;
        assert!(out.status.success() && out.stderr.is_empty(), "{}", String::from_utf8_lossy(&out.stderr));
        Some(String::from_utf8(out.stdout).unwrap())
    };
    let Some(information) = read("pdfinfo", "a4", &[]) else { return };
    assert!(information.contains("(A4)") && information.contains("Oyster skiff"), "{information}");
    assert!(read("pdfinfo", "letter", &[]).unwrap().contains("(letter)"));
    let words = read("pdftotext", "letter", &["-"]).unwrap();
    let pages = words.matches('\u{c}').count();
    for number in 1..=pages {
        assert!(words.contains(&format!("{number} of {pages}")), "no leaf says {number} of {pages}");
    }
    for leaf in words.split('\u{c}').take(pages) {
        assert!(leaf.contains("date 2026-11-25, revision A"), "{leaf}");
    }
    for part in
        ["L1", "T no. 6 of 6", "diagonals proven", "Sheets to buy", "Scrap report", "see bend card DB"]
    {
        assert!(words.contains(part), "{part}");
    }
}

/// One label for every piece and every kept drop, each with job, date and revision, so that an old one is told from a new.
#[test]
fn every_label_tells_which_issue_it_is_of() {
    let packet = packet_of_the_skiff();
    let read = |name: &str| -> Value { serde_json::from_slice(&packet[name]).unwrap() };
    let pieces: u64 = list(&read("flats.json")["parts"]).map(|part| part["quantity"].as_u64().unwrap()).sum();
    let nest = read("nest.json");
    let sheets = list(&nest["metals"]).flat_map(|metal| list(&metal["sheets"]));
    let drops: usize = sheets.map(|sheet| list(&sheet["kept_drops"]).count()).sum();
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    let labels: Vec<&Seen> = leaves.iter().filter(|leaf| leaf.name.starts_with("Labels")).collect();
    // At the foot of every leaf they stand once more.
    let wanted = usize::try_from(pieces).unwrap() + drops + labels.len();
    for words in ["Oyster skiff 21 ft 6", "date 2026-11-25, revision A"] {
        let told =
            labels.iter().flat_map(|leaf| &leaf.texts).filter(|text| text.words.starts_with(words)).count();
        assert_eq!(told, wanted, "{words}: {pieces} pieces, {drops} drops, {} leaves", labels.len());
    }
    assert!(0 < drops);
}

fn list(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().unwrap().iter()
}

#[test]
fn paper_models_come_when_asked_for() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let run = plateloft(&["packet", SKIFF, "--paper-models", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let packet = files(&out);
    let model = text(&packet["models/L1.svg"]);
    assert!(model.contains("Not a pattern for metal") && model.contains("scale 1:6"));
    // A letter and an A4 sheet both hold it at full size.
    let document = Document::parse(model).unwrap();
    let root = document.root_element();
    assert_eq!((root.attribute("width"), root.attribute("height")), (Some("186mm"), Some("243mm")));
    assert!(text(&packet["index.html"]).contains("paper model, scale 1:6"));
    assert!(!packet.contains_key("models/P1.svg"), "a flat plate needs no model");
}

#[test]
fn folding_again_is_told_in_numbers() {
    let run = plateloft(&["flats", SKIFF, "--refold"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    for words in
        ["worst deviation of any corner, size or hole", "gap designed", "least", "largest", "interference"]
    {
        assert!(run.stdout.contains(words), "{words} is missing");
    }
    assert!(run.stdout.lines().all(|line| line.chars().count() <= 102), "{}", run.stdout);
    // The job is in inches, and so is every deviation.
    assert!(run.stdout.contains("off, in") && !run.stdout.contains(" mm"), "{}", run.stdout);
}

/// A printed tape length in inches: "4 3/8 + .021", "1/32", "0".
fn printed_in(text: &str) -> f64 {
    let mut sign = 1.0;
    let word = |word: &str| match word.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => word.parse::<f64>().unwrap(),
    };
    let mut sum = 0.0;
    for part in text.split_whitespace() {
        match part {
            "+" => sign = 1.0,
            "-" => sign = -1.0,
            number => sum += sign * word(number),
        }
    }
    sum
}

/// Rows of the table of seams of one part: cells by the dashes under their heads, runs of lines put together.
fn seam_rows(told: &str, mark: &str) -> Vec<Vec<String>> {
    let part = told.split("\n\n").find(|part| part.starts_with(&format!("{mark}: "))).unwrap();
    let mut lines = part.lines().skip_while(|line| !line.starts_with("  seam "));
    lines.next().unwrap();
    let dashes: Vec<char> = lines.next().unwrap().chars().collect();
    let begins = |at: &usize| dashes[*at] == '-' && (*at == 0 || dashes[at - 1] != '-');
    let starts: Vec<usize> = (0..dashes.len()).filter(begins).collect();
    let mut rows: Vec<Vec<String>> = Vec::new();
    for line in lines {
        let letters: Vec<char> = line.chars().collect();
        let cell = |column: usize| -> String {
            let end = starts.get(column + 1).map_or(letters.len(), |next| (*next).min(letters.len()));
            letters.get(starts[column]..end).unwrap_or_default().iter().collect::<String>().trim().to_owned()
        };
        let cells: Vec<String> = (0..starts.len()).map(cell).collect();
        if cells.last().is_some_and(|last| !last.is_empty()) {
            rows.push(cells);
        } else if let Some(row) = rows.last_mut() {
            for (whole, more) in row.iter_mut().zip(cells).filter(|(_, more)| !more.is_empty()) {
                *whole = format!("{whole} {more}");
            }
        }
    }
    rows
}

/// The hatch lid with 1/32 in asked for at every seam. Angles and hips: worked from the job's inputs by a separate script, as
/// in the tests of tapered lids.
#[test]
fn every_seam_is_told_with_its_own_numbers_after_folding_again() {
    let mut job: Value = serde_json::from_str(include_str!("../fixtures/jobs/oyster-skiff.json")).unwrap();
    job["shop"]["seam_gap"] = Value::from("1/32");
    let run = plateloft_on(&job, &["flats", "--refold"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let rows = seam_rows(&run.stdout, "L1");
    let hips = [("B", 130.4, 4.396), ("C", 135.4, 5.279), ("D", 129.6, 5.115), ("A", 125.8, 4.138)];
    assert_eq!(rows.len(), 8, "{rows:#?}");
    for (corner, angle, length) in hips {
        let row = rows.iter().find(|row| row[0] == format!("slope at corner {corner}")).unwrap();
        assert_eq!(row[2], format!("{angle:.1}°"), "{row:?}");
        assert!((printed_in(&row[3]) - length).abs() < 0.001, "{row:?}");
        assert!(rows.iter().any(|row| row[0] == format!("skirt at corner {corner}")), "{rows:#?}");
    }
    for row in &rows {
        let [designed, least, largest] = [4, 5, 6].map(|column| printed_in(&row[column]));
        assert!((designed - 1.0 / 32.0).abs() < 0.0006, "{row:?}");
        // .02 mm is .0008 in. A corner that is cut off clear of bends may stand open by less than its edges.
        let at_cut_off = row[1].split_once("bends, ").map(|(_, open)| open.split(" open").next().unwrap());
        let nearest = at_cut_off.map_or(designed, |open| printed_in(open).min(designed));
        assert!((least - nearest).abs() < 0.0015 && (largest - designed).abs() < 0.0015, "{row:?}");
        assert!(least <= largest, "{row:?}");
        assert_eq!(row[7], "none", "{row:?}");
    }
}

/// The drain of a pan: its middle and its width, as designed and as folded again.
#[test]
fn holes_are_measured_after_folding_again() {
    let run = plateloft(&["flats", "fixtures/shapes/pan.json", "--refold"]);
    assert_eq!(run.code, 0, "{}", run.stderr);
    for what in ["middle, x", "middle, y", "middle, height", "across"] {
        let named = format!("hole 1 in floor, {what} ");
        let line = run.stdout.lines().find(|line| line.contains(&named));
        let line = line.unwrap_or_else(|| panic!("{named}: {}", run.stdout));
        assert!(line.trim_end().ends_with(" .0000"), "{line}");
    }
}

/// Sum of five lines against the bought one, in one column of exact integers.
fn adds_up(amounts: &Value, column: &str) -> bool {
    let number = |line: &str| -> i128 {
        let value = &amounts[line][column];
        value.as_str().map_or_else(|| i128::from(value.as_i64().unwrap()), |text| text.parse().unwrap())
    };
    let lines = ["parts", "kept_drops", "kerf", "edge_trim", "scrap"];
    lines.iter().map(|line| number(line)).sum::<i128>() == number("bought")
}

#[test]
fn the_scrap_report_adds_up_to_the_last_unit() {
    for job in [SKIFF, "fixtures/jobs/sled-bin.json"] {
        let packet = packet_of(job, &[]);
        let report: Value = serde_json::from_slice(&packet["scrap-report.json"]).unwrap();
        let sheets = report["sheets"].as_array().unwrap();
        let all = sheets.iter().map(|sheet| &sheet["amounts"]).chain([&report["total"]]);
        for amounts in all {
            assert!(adds_up(amounts, "exact_area"), "{amounts}");
            assert!(adds_up(amounts, "exact_weight"), "{amounts}");
            if amounts["bought"]["cents"].is_i64() {
                assert!(adds_up(amounts, "cents"), "{amounts}");
            }
        }
    }
}

/// The appendix speaks the trade's words; the fields of the job file stand in one line under the numbers of a part.
#[test]
fn origins_name_fields_only_under_the_words() {
    let mut fields = 0;
    for job in [SKIFF, "fixtures/jobs/rescue-skiff.json", "fixtures/jobs/gig-lockers.json"] {
        let packet = packet_of(job, &[]);
        let html = text(&packet["index.html"]);
        for cell in html.split("<td class=\"origin\">").skip(1) {
            let cell = cell.split('<').next().unwrap();
            let is_path = |word: &str| {
                let letters: Vec<char> = word.chars().collect();
                let dotted = letters.windows(3).any(|three| {
                    three[1] == '.' && three[0].is_ascii_lowercase() && three[2].is_ascii_alphabetic()
                });
                dotted || word.contains('_')
            };
            assert!(!cell.split_whitespace().any(is_path), "{job}: {cell}");
        }
        let lines = html.split(">in the job file: ").skip(1);
        for field in lines.flat_map(|line| line.split('<').next().unwrap().split("; ")) {
            // "spacing of the frames, counted from the aft end (frames_every)"
            assert!(field.contains(" (") && field.ends_with(')'), "{job}: {field} is not in words");
            fields += 1;
        }
    }
    assert!(30 < fields, "{fields} fields are named");
}

/// Every cell with a number in it, but names and marks, says where the number comes from; the appendix on paper, too.
#[test]
fn no_number_of_a_table_is_without_its_origin() {
    const NAMES: [&str; 8] = ["", "mark", "what", "metal", "sheets", "from sheet", "made of pieces", "from"];
    let mut seen = 0;
    let jobs = ["rescue-skiff", "gig-lockers", "marina-gangway", "work-barge"];
    for job in std::iter::once(SKIFF.to_owned()).chain(jobs.map(|job| format!("fixtures/jobs/{job}.json"))) {
        let packet = packet_of(&job, &[]);
        let html = text(&packet["index.html"]);
        let tables = html.split("<table>\n").skip(1).map(|table| table.split("</table>").next().unwrap());
        for table in tables {
            let table = Document::parse_with_options(
                &format!("<table>{table}</table>"),
                roxmltree::ParsingOptions::default(),
            )
            .unwrap_or_else(|error| panic!("{job}: {error}"))
            .root_element()
            .descendants()
            .filter(|node| node.has_tag_name("tr"))
            .map(|row| {
                let cells = row.children().filter(roxmltree::Node::is_element);
                cells
                    .map(|cell| {
                        let title = cell.attribute("title").map(str::to_owned);
                        (cell.text().unwrap_or_default().to_owned(), title)
                    })
                    .collect::<Vec<_>>()
            })
            .collect::<Vec<_>>();
            let headings: Vec<String> = table[0].iter().map(|(words, _)| words.clone()).collect();
            for row in &table[1..] {
                for ((words, title), heading) in row.iter().zip(&headings) {
                    let is_name = NAMES.contains(&heading.as_str());
                    if is_name || !words.contains(|letter: char| letter.is_ascii_digit()) {
                        continue;
                    }
                    let title = title.as_deref().unwrap_or_else(|| panic!("{job}: {heading}: {words}"));
                    let from = if heading == "value" { title } else { title.split_once(": ").unwrap().1 };
                    assert!(3 < from.len(), "{job}: {heading}: {words}: {title}");
                    seen += 1;
                }
            }
        }
        let appendix = html.split("id=\"origins\"").nth(1).unwrap();
        for heading in
            ["Cut list", "Cut list, weights", "Scrap report", "Sheets to buy", "Weights and lifting"]
        {
            // Sheets of several metals have a table each.
            let found = [format!("<h3>{heading}</h3>"), format!("<h3>{heading}, ")];
            assert!(found.iter().any(|head| appendix.contains(head)), "{job}: {heading}");
        }
    }
    assert!(300 < seen, "{seen} numbers were read");
}

/// Numbers of bend cards say where they come from as those of layout sheets do: under the pointer, and in the appendix.
#[test]
fn no_number_of_a_bend_card_is_without_its_origin() {
    let mut seen = 0;
    for job in [SKIFF, "fixtures/jobs/rescue-skiff.json", "fixtures/jobs/call-out-truck.json"] {
        let packet = packet_of(job, &[]);
        let html = text(&packet["index.html"]);
        let options = roxmltree::ParsingOptions { allow_dtd: true, ..roxmltree::ParsingOptions::default() };
        let page = Document::parse_with_options(html, options).unwrap();
        let flats: Value = serde_json::from_slice(&packet["flats.json"]).unwrap();
        let names = flats["parts"].to_string();
        let told: Vec<String> = page
            .descendants()
            .filter(|node| node.attribute("class") == Some("origin"))
            .map(|cell| cell.text().unwrap_or_default().to_owned())
            .collect();
        let groups = page.descendants().filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "g")));
        let title = |node: roxmltree::Node<'_, '_>| {
            let child = node.children().find(|child| child.tag_name().name() == "title");
            child.and_then(|title| title.text()).unwrap_or_default().to_owned()
        };
        for step in groups.filter(|group| {
            title(*group).strip_prefix("step ").is_some_and(|number| number.parse::<u32>().is_ok())
        }) {
            for words in step.descendants().filter(|node| node.tag_name().name() == "text") {
                let own: String = words.children().filter_map(|child| child.text()).collect();
                // The number of the stroke itself, and names of faces: "leg 2".
                let is_name = own.trim().parse::<u32>().is_ok() || names.contains(&format!("\"{own}\""));
                if is_name || !own.contains(|letter: char| letter.is_ascii_digit()) {
                    continue;
                }
                let from = title(words.parent().unwrap());
                assert!(told.contains(&from), "{job}: {own}: “{from}”");
                seen += 1;
            }
        }
    }
    assert!(200 < seen, "{seen} numbers were read");
}

/// Weights of parts are the same on the cut list and, sheet by sheet, on the scrap report.
#[test]
fn the_scrap_report_has_the_weights_of_the_cut_list() {
    for job in [SKIFF, "fixtures/jobs/call-out-truck.json", "fixtures/jobs/gig-lockers.json"] {
        let packet = packet_of(job, &[]);
        let rows = |name: &str| -> Vec<Vec<String>> {
            let cells = |line: &str| {
                line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).map(str::to_owned).collect()
            };
            text(&packet[name]).lines().map(cells).collect()
        };
        let hundredths = |cell: &str| cell.replace('.', "").parse::<u64>().unwrap();
        // mark, make, area each, weight each, weight total, cut length each
        let listed = rows("cut-list.txt")
            .into_iter()
            .skip_while(|cells| !cells.iter().any(|cell| cell.starts_with("area each")));
        let listed: Vec<(String, u64)> = listed
            .skip(2)
            .take_while(|cells| cells.len() == 6 && !cells[0].starts_with('-'))
            .map(|cells| (cells[0].clone(), hundredths(&cells[4])))
            .collect();
        assert!(3 < listed.len(), "{job}: {listed:?}");
        let all = rows("scrap-report.txt");
        for (mark, weight) in &listed {
            // mark, pieces, area, weight, metal alone, with waste
            let on_sheets = all.iter().filter(|cells| cells.len() == 6 && cells[0] == *mark);
            assert_eq!(on_sheets.map(|cells| hundredths(&cells[3])).sum::<u64>(), *weight, "{job}: {mark}");
        }
        let parts = all.iter().filter(|cells| cells.first().is_some_and(|name| name == "parts"));
        let sheets = all
            .iter()
            .filter(|cells| cells.first().is_some_and(|words| words.starts_with("Parts on ")))
            .count();
        let of_sheets: u64 = parts.take(sheets).map(|cells| hundredths(&cells[2])).sum();
        assert_eq!(of_sheets, listed.iter().map(|(_, weight)| weight).sum::<u64>(), "{job}: lines of parts");
    }
}

/// A packet speaks in one system of units; names that the job or a published source gave are left as they are.
#[test]
fn a_packet_has_one_system_of_units() {
    const METRIC: [&str; 8] = ["mm", "kg", "l", "N", "N·m", "m2", "°C", "kN"];
    const INCH: [&str; 8] = ["in", "lb", "gal", "US", "lbf", "in-lb", "ft2", "°F"];
    for (job, strange) in [
        ("fixtures/jobs/oyster-skiff.json", METRIC),
        ("fixtures/jobs/rescue-skiff.json", METRIC),
        ("fixtures/jobs/call-out-truck.json", INCH),
        ("fixtures/jobs/marina-gangway.json", INCH),
        ("fixtures/jobs/channel-covers.json", INCH),
    ] {
        let packet = packet_of(job, &[]);
        let html = text(&packet["index.html"]);
        let body = html.split("<body>").nth(1).unwrap();
        let words: String = body
            .split('<')
            .map(|piece| piece.split_once('>').map_or("", |(_, words)| words))
            .fold(String::new(), |all, words| all + words + "\n");
        for line in words.lines() {
            let tokens: Vec<&str> =
                line.split([' ', ',', ';', '(', ')', ':']).filter(|word| !word.is_empty()).collect();
            for pair in tokens.windows(2) {
                let is_number =
                    pair[0].chars().all(|letter| letter.is_ascii_digit() || ".-/".contains(letter))
                        && pair[0].chars().any(|letter| letter.is_ascii_digit());
                assert!(!is_number || !strange.contains(&pair[1].trim_end_matches('.')), "{job}: {line}");
            }
        }
    }
}

/// Published figures are told in the units of the job alone.
#[test]
fn published_figures_stand_in_the_units_of_the_job() {
    for job in ["call-out-truck", "marina-gangway"] {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        let html = text(&packet["index.html"]);
        let metals: Value = serde_json::from_slice(&packet["nest.json"]).unwrap();
        let metals = metals["metals"].as_array().unwrap().len();
        let appendix = html.split("id=\"origins\"").nth(1).unwrap().split("</section>").next().unwrap();
        let told = appendix.matches("class=\"origin\">an estimate by").count();
        assert!((1..=metals).contains(&told), "{job}: {told}");
        assert!(!html.contains(" ksi"), "{job}");
        assert!(appendix.contains(" MPa and E "), "{job}");
    }
    for job in ["oyster-skiff", "work-barge"] {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        assert!(!text(&packet["index.html"]).contains("millimetre"), "{job}");
    }
}

/// What the bench reads holds no command lines, says what is on the rack, and what it does not hold.
#[test]
fn packets_speak_to_the_bench() {
    let body = |job: &str| {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        text(&packet["index.html"]).split("<body>").nth(1).unwrap().to_owned()
    };
    for job in ["litter-locker", "gig-lockers", "work-barge"] {
        assert!(!body(job).contains('`'), "{job}");
    }
    let bin = body("sled-bin");
    let hatch = body("hatch-options");
    assert!(hatch.contains("other ways: plain sheet; .190 tread; flush over a gutter; kit."), "no options");
    assert!(!bin.contains("other ways:"));
}

#[test]
fn every_drawing_is_an_svg_in_millimetres() {
    for (name, bytes) in packet_of_the_skiff().iter().filter(|(name, _)| name.ends_with(".svg")) {
        let document = Document::parse(text(bytes)).unwrap_or_else(|error| panic!("{name}: {error}"));
        let root = document.root_element();
        let size =
            |which: &str| root.attribute(which).unwrap().strip_suffix("mm").unwrap().parse::<f64>().unwrap();
        let view: Vec<f64> =
            root.attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
        assert_eq!((size("width"), size("height")), (view[2], view[3]), "{name} is not in true size");
    }
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    assert!(*packet_of_the_skiff() == packet_of(SKIFF, &[]));
}

#[test]
fn a_refused_job_leaves_an_earlier_packet_alone() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let out_name = out.to_str().unwrap();
    assert_eq!(plateloft(&["packet", "fixtures/jobs/sled-bin.json", "--out", out_name]).code, 0);
    let before = files(&out);
    assert_eq!(plateloft(&["packet", "fixtures/jobs/missing.json", "--out", out_name]).code, 2);
    assert!(files(&out) == before);
    assert_eq!(plateloft(&["packet", "fixtures/jobs/litter-locker.json", "--out", out_name]).code, 0);
    assert!(files(&out) != before);
}

#[test]
fn a_folder_that_is_no_packet_is_left_alone() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("photos");
    assert_eq!(plateloft(&["new", out.to_str().unwrap()]).code, 0);
    let before = files(&out);
    let run = plateloft(&["packet", SKIFF, "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 2);
    assert!(run.stderr.contains("no packet"), "{}", run.stderr);
    assert!(files(&out) == before);
}

/// A note that somebody put beside the drawings is not lost when the packet is written again.
#[test]
#[expect(clippy::disallowed_methods, reason = "a test of a program that writes files writes one beside them")]
fn a_file_that_was_put_into_a_packet_is_not_thrown_away() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let write = || plateloft(&["packet", SKIFF, "--out", out.to_str().unwrap()]);
    assert_eq!(write().code, 0);
    let listed = std::fs::read_to_string(out.join("files.txt")).unwrap();
    assert!(
        listed.lines().all(|path| out.join(path).is_file()) && listed.lines().any(|path| path == "files.txt")
    );
    std::fs::write(out.join("parts/measured twice.txt"), "L1 is 1/8 longer").unwrap();
    let again = write();
    assert_eq!(again.code, 2);
    assert!(again.stderr.contains("none of its files: parts/measured twice.txt"), "{}", again.stderr);
    assert!(out.join("parts/measured twice.txt").is_file() && out.join("index.html").is_file());
    std::fs::remove_file(out.join("parts/measured twice.txt")).unwrap();
    assert_eq!(write().code, 0);
}
