//! Options of a job: each is the job with some fields replaced, made up before anything else is read, so that it is read
//! and refused as any other job.

use serde_json::{Map, Value};

use super::hands::compare;
use super::plain::plain;
use crate::message::{Message, shown};
use crate::nearest::{list, remedy};
use crate::place::{Findings, Place};

/// Fields that all options of a job have in common.
const FIXED: [&str; 5] = ["plateloft", "job", "units", "tape", "options"];

/// Questions about finished parts and their weights have no say in the price, and may name what an option leaves out.
const NOT_PRICED: [&str; 2] = ["fits", "weights"];

/// Fields of a metal that sheets are priced by.
const PRICED_BY: [&str; 3] = ["alloy", "thickness", "pattern"];

/// Another way of making a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobOption {
    /// What it is called.
    pub name: String,
    /// What is different from the job, in words.
    pub differences: Vec<String>,
    /// True when it is sold as the kit of the job.
    pub as_kit: bool,
    /// The job file that it comes to.
    pub bytes: Vec<u8>,
}

/// The options of a job file. `file_name` is only for messages; a file that is no job has none, and is refused when it is
/// read as a job.
///
/// # Errors
/// Options that contradict themselves, the job or one another.
pub fn options(file_name: &str, bytes: &[u8]) -> Result<Vec<JobOption>, Vec<Message>> {
    let mut findings = Findings::new(file_name);
    let tree = super::text::text(bytes, &mut Findings::new(file_name))
        .and_then(|text| super::tree::tree(text, &mut Findings::new(file_name)));
    let options = tree.map(|tree| of_tree(&tree, &mut findings)).unwrap_or_default();
    if findings.is_empty() { Ok(options) } else { Err(findings.into_messages()) }
}

/// The options that a tree holds; what is wrong with its fields is left to the schema.
pub(super) fn of_tree(tree: &Value, findings: &mut Findings) -> Vec<JobOption> {
    let Some(written) = tree.get("options").and_then(Value::as_array) else { return Vec::new() };
    let mut options: Vec<JobOption> = Vec::new();
    let mut jobs: Vec<Value> = Vec::new();
    for (number, written) in written.iter().enumerate() {
        let place = Place::top("options").entry(number);
        let Some((option, job)) = option(tree, written, &place, findings) else { continue };
        if options.iter().any(|other| other.name == option.name) {
            let remedy = "name every option differently";
            findings.add(&place.field("name"), &option.name, "is the name of another option", remedy);
        }
        let job = plain(&job);
        let mut known = options.iter().zip(&jobs);
        if let Some((twin, _)) = known.find(|(other, known)| **known == job && other.as_kit == option.as_kit)
        {
            let wrong = format!("comes to the same job as \"{}\"", shown(&twin.name));
            findings.add(&place, &option.name, wrong, "leave one of the two out");
        }
        options.push(option);
        jobs.push(job);
    }
    options
}

/// An option, and the job that it comes to.
fn option(
    tree: &Value,
    written: &Value,
    place: &Place,
    findings: &mut Findings,
) -> Option<(JobOption, Value)> {
    let name = written.get("name")?.as_str()?;
    let mut job = tree.as_object()?.clone();
    for field in ["options"].iter().chain(&NOT_PRICED) {
        job.shift_remove(*field);
    }
    let marks = |field: &str| -> Vec<String> {
        let list = written.get(field).and_then(Value::as_array).into_iter().flatten();
        list.filter_map(|mark| Some(mark.as_str()?.to_owned())).collect()
    };
    let left_out = marks("leave_out");
    let mut differences = Vec::new();
    if let Some(instead) = written.get("instead").and_then(Value::as_object) {
        let place = place.field("instead");
        judge_instead(tree, instead, &left_out, &place, findings);
        let before = Value::Object(job.clone());
        replace(&mut job, instead, &place, findings);
        differences = said(instead, &before, &Value::Object(job.clone()));
    }
    let leave = place.field("leave_out");
    let known = marks_of(&job);
    let parts = job.get_mut("parts").and_then(Value::as_array_mut)?;
    for mark in &left_out {
        if judged_mark(mark, &known, &leave, findings) {
            parts.retain(|part| mark_of(part) != Some(mark));
            differences.push(format!("without {mark}"));
        }
    }
    for part in written.get("add").and_then(Value::as_array).into_iter().flatten() {
        parts.push(part.clone());
        let shape = part.get("shape").and_then(Value::as_str).unwrap_or_default().replace('_', " ");
        differences.push(format!("with {}, {shape}", mark_of(part).unwrap_or_default()));
    }
    let as_kit = written.get("as_kit").and_then(Value::as_bool).unwrap_or(false);
    if as_kit {
        differences.push("sold as a kit".to_owned());
        if tree.get("kit").is_none() {
            let remedy = "say under \"kit\" what crates it goes in";
            findings.add(&place.field("as_kit"), "true", "the job has no kit", remedy);
        }
    }
    if differences.is_empty() {
        findings.add(
            place,
            name,
            "nothing in it differs from the job itself",
            "say what stands instead, or take it out",
        );
    }
    let job = Value::Object(job);
    let bytes = job.to_string().into_bytes();
    Some((JobOption { name: name.to_owned(), differences, as_kit, bytes }, job))
}

fn mark_of(part: &Value) -> Option<&str> {
    part.get("mark")?.as_str()
}

fn marks_of(job: &Map<String, Value>) -> Vec<String> {
    let parts = job.get("parts").and_then(Value::as_array).into_iter().flatten();
    parts.filter_map(|part| Some(mark_of(part)?.to_owned())).collect()
}

fn judged_mark(mark: &str, known: &[String], place: &Place, findings: &mut Findings) -> bool {
    let known: Vec<&str> = known.iter().map(String::as_str).collect();
    if known.contains(&mark) {
        return true;
    }
    let remedy = remedy(mark, &known, || format!("the parts are {}", list(known.iter().copied())));
    findings.add(place, mark, "the job has no part of this mark", remedy);
    false
}

/// What an option may not replace, and what it contradicts.
fn judge_instead(
    tree: &Value,
    instead: &Map<String, Value>,
    left_out: &[String],
    place: &Place,
    findings: &mut Findings,
) {
    for name in FIXED.into_iter().filter(|name| instead.contains_key(*name)) {
        findings.add(&place.field(name), "", "all options of a job have this in common", "take it out");
    }
    for name in NOT_PRICED.into_iter().filter(|name| instead.contains_key(*name)) {
        findings.add(&place.field(name), "", "has no say in the price", "take it out");
    }
    let named = |field: &str| instead.get(field).and_then(Value::as_object).into_iter().flatten();
    for (mark, fields) in named("parts") {
        let place = place.field("parts").field(mark);
        if left_out.contains(mark) {
            findings.add(&place, "", "is changed and left out at once", "keep one of the two");
        }
        if fields.get("mark").is_some() {
            let remedy = "leave the part out, and add one of another mark";
            findings.add(&place.field("mark"), "", "a part keeps its mark", remedy);
        }
    }
    let Some(metals) = instead.get("metals").filter(|_| !instead.contains_key("sheets")) else { return };
    let mut patched_tree = tree.clone();
    patched_tree["metals"] = patched(tree.get("metals"), metals).unwrap_or_default();
    let (own, new) = (plain(tree), plain(&patched_tree));
    for (metal, fields) in named("metals") {
        let other = PRICED_BY.into_iter().find(|field| {
            fields.get(*field).is_some()
                && own["metals"][metal].get(*field) != new["metals"][metal].get(*field)
        });
        let sheets = tree.get("sheets").and_then(Value::as_array).into_iter().flatten();
        let of_metal = |sheet: &&Value| sheet.get("metal").and_then(Value::as_str) == Some(metal);
        let is_priced = sheets.filter(of_metal).any(|sheet| sheet.get("price").is_some());
        if let Some(other) = other.filter(|_| is_priced) {
            let wrong = "the sheets of this metal keep the price of another";
            let remedy = "give \"sheets\" with its own prices beside \"metals\" in this option";
            findings.add(&place.field("metals").field(metal).field(other), "", wrong, remedy);
        }
    }
}

/// Puts fields in the place of the job's.
fn replace(
    job: &mut Map<String, Value>,
    instead: &Map<String, Value>,
    place: &Place,
    findings: &mut Findings,
) {
    for (name, value) in instead.iter().filter(|(name, _)| !FIXED.contains(&name.as_str())) {
        if let ("parts", Some(parts)) = (name.as_str(), value.as_object()) {
            replace_in_parts(job, parts, &place.field("parts"), findings);
            continue;
        }
        if name == "parts" {
            let remedy = "write { \"MARK\": { the fields that differ } }; \"add\" and \"leave_out\" change which parts there are";
            findings.add(&place.field("parts"), "", "must name parts by their marks", remedy);
            continue;
        }
        match patched(job.get(name), value) {
            Some(after) => job.insert(name.clone(), after),
            None => job.shift_remove(name),
        };
    }
}

fn replace_in_parts(
    job: &mut Map<String, Value>,
    instead: &Map<String, Value>,
    place: &Place,
    findings: &mut Findings,
) {
    let known = marks_of(job);
    for (mark, fields) in instead {
        if !judged_mark(mark, &known, place, findings) {
            continue;
        }
        let parts = job.get_mut("parts").and_then(Value::as_array_mut).into_iter().flatten();
        for part in parts.filter(|part| mark_of(part) == Some(mark)) {
            *part = patched(Some(part), fields).unwrap_or_default();
        }
    }
}

/// What a value becomes: fields take the place of fields, `null` takes one out, and anything else is replaced whole.
fn patched(before: Option<&Value>, value: &Value) -> Option<Value> {
    if value.is_null() {
        return None;
    }
    let (Some(Value::Object(before)), Value::Object(fields)) = (before, value) else {
        return Some(value.clone());
    };
    let mut after = before.clone();
    for (name, value) in fields {
        match patched(after.get(name), value) {
            Some(value) => after.insert(name.clone(), value),
            None => after.shift_remove(name),
        };
    }
    Some(Value::Object(after))
}

/// What differs where something stands instead of the job's own: "L1.skirt 2 instead of 1 1/2". The same value in another
/// writing is no difference.
fn said(instead: &Map<String, Value>, before: &Value, after: &Value) -> Vec<String> {
    let plain = [plain(before), plain(after)];
    let mut told = Vec::new();
    for (name, value) in instead.iter().filter(|(name, _)| !FIXED.contains(&name.as_str())) {
        if name != "parts" {
            let field = |tree: &'_ Value| -> Option<Value> { tree.get(name).cloned() };
            told.extend(say(name, [field(before), field(after)], [field(&plain[0]), field(&plain[1])]));
            continue;
        }
        for mark in value.as_object().into_iter().flat_map(Map::keys) {
            let part = |tree: &Value| {
                let parts = tree.get("parts").and_then(Value::as_array).into_iter().flatten();
                parts.filter(|part| mark_of(part) == Some(mark)).cloned().collect::<Vec<_>>()
            };
            let found = part(before)
                .into_iter()
                .zip(part(after))
                .zip(part(&plain[0]).into_iter().zip(part(&plain[1])));
            for ((before, after), (plain_before, plain_after)) in found {
                told.extend(say(mark, [Some(before), Some(after)], [Some(plain_before), Some(plain_after)]));
            }
        }
    }
    told
}

fn say(path: &str, [before, after]: [Option<Value>; 2], plain: [Option<Value>; 2]) -> Vec<String> {
    let (mut edits, mut real) = (Vec::new(), Vec::new());
    compare(path, before.as_ref(), after.as_ref(), &mut edits);
    compare(path, plain[0].as_ref(), plain[1].as_ref(), &mut real);
    edits.retain(|edit| real.iter().any(|real| real.field == edit.field));
    let words = edits.into_iter().map(|edit| {
        let is_group = |value: &str| value.starts_with(['{', '[']);
        match (is_group(&edit.edited), is_group(&edit.original)) {
            (true, _) => format!("{} as the option says", edit.field),
            (false, true) => format!("{} {} instead of the job's", edit.field, edit.edited),
            (false, false) => format!("{} {} instead of {}", edit.field, edit.edited, edit.original),
        }
    });
    words.collect()
}
