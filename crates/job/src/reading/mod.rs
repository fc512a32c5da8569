//! From bytes to a job: text, tree, the schema's say, then conversion. Each step goes on with what the one before left
//! whole, so that all that is wrong is said at once.

mod hands;
mod notes;
mod options;
mod plain;
mod prune;
mod text;
mod tree;
mod walk;

pub(crate) use hands::Hands;
pub(crate) use notes::Notes;
pub use options::{JobOption, options};
pub(crate) use walk::{alternatives, resolved, word_of};

use fold::bend::ShopStrip;
use serde_json::Value;
use units::Length;

use crate::convert;
use crate::file::{JobFile, VERSION};
use crate::message::Message;
use crate::model::Job;
use crate::place::{Findings, Place};
use tree::Step;

/// The shop's log of strips as it was found: its name for messages, and its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FoundLog {
    /// Name for messages and paper.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Finds the log that a job names, or the one beside it when it names none. `Ok(None)` when there is none beside it; the
/// error says why a named one cannot be read.
pub type FindLog<'a> = &'a dyn Fn(Option<&str>) -> Result<Option<FoundLog>, String>;

/// Reads a job file that has no log of strips beside it. `file_name` is only for messages.
///
/// # Errors
/// As [`read_with_log`]; a job that names a log is refused.
pub fn read(file_name: &str, bytes: &[u8]) -> Result<Job, Vec<Message>> {
    let none = |named: Option<&str>| named.map_or(Ok(None), |_| Err("no log can be read here".to_owned()));
    read_with_log(file_name, bytes, &none)
}

/// Reads a job file and the shop's log of strips. `file_name` is only for messages.
///
/// # Errors
/// Every [`Message`] there is to say about the file: as JSON, by its schema, and about the sizes and names in it, and
/// about the log's lines. What the sizes of one shape do to one another is left to [`Part::shape`](crate::Part::shape).
pub fn read_with_log(file_name: &str, bytes: &[u8], find_log: FindLog<'_>) -> Result<Job, Vec<Message>> {
    read_as_received(file_name, bytes, find_log, &[])
}

/// Reads a job file for sheets that have other thicknesses than were ordered, by the names of their metals. Strips of the
/// job are still those of the thickness that the file gives.
///
/// # Errors
/// As [`read_with_log`].
pub fn read_as_received(
    file_name: &str,
    bytes: &[u8],
    find_log: FindLog<'_>,
    thicknesses: &[(String, Length)],
) -> Result<Job, Vec<Message>> {
    let mut findings = Findings::new(file_name);
    let job = read_whole(bytes, find_log, thicknesses, &mut findings);
    match job {
        Some(job) if findings.is_empty() => Ok(job),
        _ => Err(findings.into_messages()),
    }
}

fn read_whole(
    bytes: &[u8],
    find_log: FindLog<'_>,
    thicknesses: &[(String, Length)],
    findings: &mut Findings,
) -> Option<Job> {
    let text = text::text(bytes, findings)?;
    let mut tree = tree::tree(text, findings)?;
    if !check_version(&tree, findings) {
        return None;
    }
    let options = options::of_tree(&tree, findings);
    let hands = hands::spread(&mut tree, findings);
    let walked = walk::walk(&tree);
    for fault in walked.faults.iter().filter(|fault| !hands.repeats(&fault.steps)) {
        let place = place_of(&fault.steps, &tree, &hands);
        findings.add(&place, &fault.value, fault.wrong.as_str(), fault.remedy.as_str());
    }
    check_contents(&tree, findings);
    let places: Vec<Place> = walked.lengths().map(|(steps, _)| place_of(steps, &tree, &hands)).collect();
    let notes = notes::take(&mut tree);
    if !prune::prune(&mut tree, &walked.faults) {
        return None;
    }
    let file = job_file(&tree, findings)?;
    for ((steps, written), place) in walked.lengths().zip(&places) {
        if prune::is_gone(&mut tree, steps) {
            convert::judge_length(written, place, file.units, findings);
        }
    }
    let (log_name, strips) = strips_of_log(&file, find_log, findings).unwrap_or_default();
    let beside = convert::Beside { notes: &notes, hands: &hands, log: &strips, tree: &tree, thicknesses };
    let mut job = convert::job(&file, &beside, findings)?;
    job.options = options.into_iter().map(|option| option.name).collect();
    if !log_name.is_empty() && file.shop.as_ref().is_none_or(|shop| shop.strip_log.is_none()) {
        job.assumptions.push(format!("The shop's strips are those of {log_name}."));
    }
    Some(job)
}

/// Name and strips of the shop's log; none of it when there is no log, or something is wrong with it.
fn strips_of_log(
    file: &JobFile,
    find_log: FindLog<'_>,
    findings: &mut Findings,
) -> Option<(String, Vec<ShopStrip>)> {
    let named = file.shop.as_ref().and_then(|shop| shop.strip_log.as_deref());
    let found = find_log(named).map_err(|wrong| {
        let place = Place::top("shop").field("strip_log");
        findings.add(&place, named.unwrap_or_default(), wrong, "check the path; it starts at the job file");
    });
    let log = found.ok()??;
    match convert::read_strip_log(&log.name, &log.bytes) {
        Ok(strips) => Some((log.name, strips.into_iter().map(|logged| logged.strip).collect())),
        Err(messages) => {
            findings.extend(messages);
            None
        }
    }
}

/// A job makes parts out of metals, or cuts bars, coverings or liners.
fn check_contents(tree: &Value, findings: &mut Findings) {
    if !tree.is_object() {
        return;
    }
    let is_given = |field: &str| match tree.get(field) {
        None => false,
        Some(list) => list.as_array().is_none_or(|list| !list.is_empty()),
    };
    if is_given("parts") && tree.get("metals").is_none() {
        let remedy = "give metals by the name that parts and sheets call them";
        findings.add(&Place::top("metals"), "", "is missing", remedy);
    }
    if !["parts", "bars", "coverings", "liners"].into_iter().any(is_given) {
        let value = if tree.get("parts").is_some() { "[]" } else { "" };
        let wrong = if value.is_empty() { "is missing" } else { "names nothing to make" };
        findings.add(&Place::top("parts"), value, wrong, "give parts to make, or bars, coverings or liners");
    }
}

/// A file of another version is refused before its fields are judged.
fn check_version(tree: &Value, findings: &mut Findings) -> bool {
    let version = tree.get("plateloft").and_then(Value::as_number);
    let known = version.is_none_or(|version| version.as_u64() == Some(VERSION));
    if !known {
        let value = version.map(ToString::to_string).unwrap_or_default();
        findings.add(
            &Place::top("plateloft"),
            &value,
            format!("this program reads version {VERSION} of the job file"),
            format!("write the job by version {VERSION}, or use the program that this file was written for"),
        );
    }
    known
}

/// The structs of a tree that the schema has passed.
fn job_file(tree: &Value, findings: &mut Findings) -> Option<JobFile> {
    match serde_path_to_error::deserialize(tree) {
        Ok(file) => Some(file),
        Err(error) => {
            let place = Place::top(&error.path().to_string());
            findings.add(&place, "", error.inner().to_string(), "compare the field with the schema");
            None
        }
    }
}

/// Where steps lead, worded from the part when they lead into one.
fn place_of(steps: &[Step], tree: &Value, hands: &Hands) -> Place {
    let (mut place, rest) = match steps {
        [Step::Field(parts), Step::Entry(number), rest @ ..] if parts == "parts" && !rest.is_empty() => {
            let mark = tree.get("parts").and_then(|parts| parts.get(*number)?.get("mark")?.as_str());
            let part = |mark: &str| Place::hand(mark, hands.edited_fields(*number));
            (mark.map_or_else(|| Place::top("parts").entry(*number), part), rest)
        }
        _ => (Place::default(), steps),
    };
    for step in rest {
        place = match step {
            Step::Field(name) => place.field(name),
            Step::Entry(number) => place.entry(*number),
        };
    }
    place
}
