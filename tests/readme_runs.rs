//! The runs that the README shows are what the program says, made in one folder from first to last.
#![expect(clippy::disallowed_methods, reason = "a test of a document reads it")]

use std::fs;

use tempfile::tempdir;

use crate::program::{plateloft_in, top};

const FENCE: &str = "```console\n";

/// Words of a command line; double quotes keep blanks together.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(letter),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

/// What a block shows after its commands are run anew.
fn rerun(block: &str, folder: &std::path::Path) -> String {
    let mut shown = String::new();
    let mut lines = block.lines();
    while let Some(line) = lines.next() {
        let Some(command) = line.strip_prefix("$ plateloft ") else { continue };
        let mut whole = command.to_owned();
        shown.push_str(&format!("{line}\n"));
        while let Some(begun) = whole.strip_suffix('\\') {
            let next = lines.next().unwrap();
            shown.push_str(&format!("{next}\n"));
            whole = format!("{begun} {next}");
        }
        let (whole, lines_shown) = match whole.split_once(" | head -") {
            Some((command, count)) => (command.to_owned(), count.trim().parse().unwrap()),
            None => (whole, usize::MAX),
        };
        let words = words(&whole);
        let run = plateloft_in(folder, &words.iter().map(String::as_str).collect::<Vec<_>>());
        run.stdout.lines().take(lines_shown).for_each(|line| shown.push_str(&format!("{line}\n")));
        if run.code != 0 {
            shown.push_str(&run.stderr);
        }
    }
    shown
}

#[test]
fn the_readme_shows_what_the_program_says() {
    let folder = tempdir().unwrap();
    for read in ["fixtures/jobs", "fixtures/racks"] {
        let copies = folder.path().join(read);
        fs::create_dir_all(&copies).unwrap();
        for entry in fs::read_dir(top().join(read)).unwrap() {
            let path = entry.unwrap().path();
            fs::copy(&path, copies.join(path.file_name().unwrap())).unwrap();
        }
    }
    let path = top().join("README.md");
    let readme = fs::read_to_string(&path).unwrap();
    let mut pieces = readme.split(FENCE);
    let mut fresh = pieces.next().unwrap().to_owned();
    let mut blocks = 0;
    for piece in pieces {
        let (block, rest) = piece.split_once("```").unwrap();
        fresh.push_str(&format!("{FENCE}{}```{rest}", rerun(block, folder.path())));
        blocks += 1;
    }
    assert!(0 < blocks, "README.md shows no run");
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, &fresh).unwrap();
    } else {
        assert_eq!(fresh, readme, "accept with UPDATE=1");
    }
}
