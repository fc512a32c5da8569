//! Wrong jobs beside their exact messages, as far as reading and shaping find them; `UPDATE=1` accepts.

use crate::common::{bytes, folder, names, words};
use job::{Message, read};

/// Wrong jobs that read and shape: what stops them lies on the sheet or in the brake, where other tests look.
const FOUND_LATER: [&str; 30] = [
    "bend-longer-than-the-brake",
    "bend-sharper-than-the-nearest-row",
    "bend-too-strong-for-the-brake",
    "blank-beyond-the-shear",
    "box-on-a-bench-folder",
    "covering-off-its-pattern",
    "fit-door-part-not-free",
    "fit-hinge-on-no-side",
    "flange-all-bend",
    "flange-below-the-brake",
    "flange-shorter-than-its-bend-and-the-die",
    "flanges-in-a-hollow-overlap",
    "flanges-stop-too-little-short",
    "gap-wider-than-the-sheet",
    "hem-in-hard-temper",
    "hem-in-temper-without-a-row",
    "hole-on-a-bend",
    "hole-outside-its-face",
    "lay-fits-no-sheet",
    "liners-that-cannot-be-cut",
    "mirror-of-a-bent-part",
    "offset-beside-the-die",
    "one-sheet-too-small",
    "part-fits-no-sheet",
    "punch-lower-than-the-box",
    "relief-hole-too-large",
    "relief-none-in-thick-sheet",
    "sheared-sheets-run-out",
    "sheet-beyond-the-throat",
    "sheets-run-out",
];

/// Everything that reading, or else shaping, says.
fn messages(file: &str) -> Vec<Message> {
    let job = match read(file, &bytes("refusals", file)) {
        Ok(job) => job,
        Err(messages) => return messages,
    };
    let shaped = job.parts.iter().filter_map(|part| Some((part, part.shape().err()?)));
    let mut messages: Vec<Message> = Vec::new();
    for (part, problems) in shaped {
        for problem in problems {
            // Pieces of one whole find the same trouble; the program says it once, with the nearest size that would do.
            let problem = shapes::nearest::with_nearest(part.shape.recipe(), problem, &part.making);
            let message = part.message(file, &problem);
            if !messages.contains(&message) {
                messages.push(message);
            }
        }
    }
    messages
}

/// What the program prints, with its last line.
fn printed(messages: &[Message]) -> String {
    let problems = if messages.len() == 1 { "problem" } else { "problems" };
    format!("{}{} {problems}; nothing was written\n", words(messages), messages.len())
}

#[test]
#[expect(clippy::disallowed_methods, reason = "a test of fixtures reads and, when asked, writes them")]
fn every_wrong_job_gets_its_messages() {
    for file in names("refusals") {
        let name = file.trim_end_matches(".json");
        let messages = messages(&file);
        if FOUND_LATER.contains(&name) {
            assert_eq!(words(&messages), "", "{name}");
            continue;
        }
        assert!(!messages.is_empty(), "{name} is not refused");
        let expected = folder("refusals").join(format!("{name}.txt"));
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&expected, printed(&messages)).expect("the fixture can be written");
        }
        let expected = std::fs::read_to_string(&expected).unwrap_or_default();
        assert_eq!(printed(&messages), expected, "{name}");
    }
}

#[test]
fn every_message_has_its_place_its_fault_and_its_remedy() {
    for file in names("refusals") {
        for message in messages(&file) {
            assert_eq!(message.file, file);
            assert!(!message.wrong.is_empty() && !message.remedy.is_empty(), "{message}");
            assert!(!message.wrong.contains('\n') && !message.value.contains('\n'), "{message}");
        }
    }
}

#[test]
fn ten_megabytes_of_garbage_are_refused_unread() {
    let messages = read("job.json", &vec![b'['; 10 * 1024 * 1024]).expect_err("this is no job");
    assert_eq!(
        words(&messages),
        "job.json: 10485760 bytes: this is more than 8 MB, and was not read\n    check that this is the job file\n"
    );
}

#[test]
fn a_flood_of_problems_is_cut_with_their_count() {
    let fields: Vec<String> = (0..5_000).map(|number| format!("\"x{number}\": 1")).collect();
    let text = format!("{{ {} }}", fields.join(", "));
    let messages = read("job.json", text.as_bytes()).expect_err("this is no job");
    assert_eq!(messages.len(), 101);
    assert!(messages[100].wrong.starts_with("and "), "{}", messages[100]);
}

/// Whoever looks for the field that a message names must find it, or the group of fields where it is missing.
#[test]
fn every_message_names_a_field_that_the_file_has() {
    for file in names("refusals") {
        let Ok(tree) = serde_json::from_slice::<serde_json::Value>(&bytes("refusals", &file)) else {
            continue;
        };
        for message in messages(&file) {
            let of_part = |part: &&serde_json::Value| {
                let hand = &part["opposite_hand"];
                let mark = message.mark.as_deref();
                part["mark"].as_str() == mark || hand.as_str() == mark || hand["mark"].as_str() == mark
            };
            let parts = message.mark.is_some().then(|| tree["parts"].as_array()).flatten();
            let part = parts.and_then(|parts| parts.iter().find(of_part));
            let path: Vec<String> = message
                .field
                .replace('[', "/")
                .replace(']', "")
                .replace('.', "/")
                .split('/')
                .map(String::from)
                .collect();
            let group = path[..path.len().saturating_sub(1)].join("/");
            let found = |from: &serde_json::Value| {
                group.is_empty() || from.pointer(&format!("/{group}")).is_some_and(|at| !at.is_null())
            };
            let in_shop = message.field.starts_with("shop.") && found(&tree);
            // A line of a file that is no JSON, and a name with dots in it, are no paths.
            let named = message.field.starts_with("line ") || message.field.contains(' ');
            assert!(named || in_shop || part.map_or_else(|| found(&tree), found), "{message}");
        }
    }
}
