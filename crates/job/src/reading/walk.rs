//! Holds a tree against the schema and says everything that does not fit, in the trade's words.

mod kinds;

use serde_json::{Map, Value};

use super::tree::Step;
use crate::nearest::{list, nearest, remedy};
use crate::schema::SCHEMA;
pub(super) use kinds::Quantity;
pub(crate) use kinds::{alternatives, resolved, word_of};
use kinds::{
    fits_kind, has_field, is_unprintable, kind_words, printed, quantity_of, remedy_of, takes_anything,
    word_field, words,
};

/// One thing that does not fit.
#[derive(Debug)]
pub(super) struct Fault {
    /// Where.
    pub(super) steps: Vec<Step>,
    /// True for a field that is not known and stands for no other: without it the rest may still be whole.
    pub(super) extra: bool,
    /// The value as written.
    pub(super) value: String,
    /// What is wrong.
    pub(super) wrong: String,
    /// What to do.
    pub(super) remedy: String,
}

/// What a walk through a tree comes upon.
#[derive(Debug)]
pub(super) struct Walked {
    /// Everything that does not fit the schema.
    pub(super) faults: Vec<Fault>,
    /// Every quantity and where it stands.
    pub(super) quantities: Vec<(Vec<Step>, Value, Quantity)>,
}

impl Walked {
    /// Every length and where it stands, so that those in faulty units can be looked at all the same.
    pub(super) fn lengths(&self) -> impl Iterator<Item = (&[Step], &Value)> {
        let lengths = self.quantities.iter().filter(|(_, _, quantity)| *quantity == Quantity::Length);
        lengths.map(|(steps, written, _)| (steps.as_slice(), written))
    }
}

/// Holds the tree against the schema.
pub(super) fn walk(tree: &Value) -> Walked {
    let mut walk = Walk { faults: Vec::new(), quantities: Vec::new(), steps: Vec::new() };
    walk.visit(&SCHEMA, tree);
    Walked { faults: walk.faults, quantities: walk.quantities }
}

struct Walk {
    faults: Vec<Fault>,
    quantities: Vec<(Vec<Step>, Value, Quantity)>,
    steps: Vec<Step>,
}

impl Walk {
    fn fault(&mut self, value: Option<&Value>, wrong: impl Into<String>, remedy: impl Into<String>) {
        let (wrong, remedy) = (wrong.into(), remedy.into());
        self.faults.push(Fault {
            steps: self.steps.clone(),
            extra: false,
            value: value.map(printed).unwrap_or_default(),
            wrong,
            remedy,
        });
    }

    fn within(&mut self, step: Step, look: impl FnOnce(&mut Self)) {
        self.steps.push(step);
        look(self);
        self.steps.pop();
    }

    fn visit(&mut self, schema: &Value, value: &Value) {
        let here = remedy_of(schema);
        let schema = resolved(schema);
        if takes_anything(schema) {
            return;
        }
        if let Some(words) = words(schema) {
            return self.visit_word(&words, value);
        }
        if let Some(choices) = schema.get("anyOf").and_then(Value::as_array) {
            return self.visit_choice(choices, value, here);
        }
        if !fits_kind(schema, value) {
            let wrong = format!("must be {}", kind_words(schema));
            return self.fault(Some(value), wrong, here);
        }
        if let Some(quantity) = quantity_of(schema) {
            self.quantities.push((self.steps.clone(), value.clone(), quantity));
        }
        match value {
            Value::Object(fields) => self.visit_fields(schema, fields),
            Value::Array(entries) => self.visit_entries(schema, value, entries),
            Value::Number(_) => self.visit_number(schema, value),
            Value::String(text) => self.visit_text(schema, text),
            _ => {}
        }
    }

    fn visit_text(&mut self, schema: &Value, text: &str) {
        let limit = |name: &str| schema.get(name).and_then(Value::as_u64);
        let characters = text.chars().count() as u64;
        let (wrong, remedy) = if text.chars().any(is_unprintable) {
            (
                "holds a character that cannot be printed",
                "write it on one line, without tabs; notes may be a list",
            )
        } else if text.trim().is_empty() && limit("minLength").is_some() {
            ("nothing is written here", "write a text")
        } else if limit("maxLength").is_some_and(|most| characters > most) {
            ("is too long to print", "shorten it, or write it as a list of notes")
        } else {
            return;
        };
        self.fault(Some(&Value::String(text.to_owned())), wrong, remedy);
    }

    fn visit_word(&mut self, words: &[&str], value: &Value) {
        let given = value.as_str();
        if given.is_some_and(|given| words.contains(&given)) {
            return;
        }
        let near = given.and_then(|given| nearest(given, words));
        let remedy = near.map_or_else(
            || format!("write one of: {}", list(words.iter().copied())),
            |near| format!("did you mean \"{near}\"? The words are: {}", list(words.iter().copied())),
        );
        self.fault(Some(value), "this word is not known here", remedy);
    }

    fn visit_choice(&mut self, choices: &[Value], value: &Value, here: String) {
        let choices: Vec<&Value> = choices.iter().map(resolved).collect();
        let fitting: Vec<&Value> =
            choices.iter().copied().filter(|choice| fits_kind(choice, value)).collect();
        match (fitting.as_slice(), value) {
            ([], _) => {
                let mut kinds: Vec<String> = Vec::new();
                for kind in choices.iter().map(|choice| kind_words(choice)) {
                    if !kinds.contains(&kind) {
                        kinds.push(kind);
                    }
                }
                self.fault(Some(value), format!("must be {}", kinds.join(", or ")), here);
            }
            ([only], _) => self.visit(only, value),
            (several, Value::Object(fields)) => self.visit_alternatives(several, value, fields),
            ([first, ..], _) => self.visit(first, value),
        }
    }

    /// Groups of fields are told apart by the word in `shape` or `fit`, or else by their field names: the one that knows most
    /// of them, and of those the one that lacks least.
    fn visit_alternatives(&mut self, choices: &[&Value], value: &Value, fields: &Map<String, Value>) {
        let Some(field) = word_field(choices) else {
            let lacking = |choice: &Value| {
                let required = choice.get("required").and_then(Value::as_array);
                let required = required.into_iter().flatten().filter_map(Value::as_str);
                required.filter(|name| !fields.contains_key(*name)).count()
            };
            let nearness = |choice: &&&Value| {
                let common = fields.keys().filter(|name| has_field(choice, name)).count();
                (common, std::cmp::Reverse(lacking(choice)))
            };
            // The first of equals: `max_by_key` would take the last.
            if let Some(best) = choices.iter().rev().max_by_key(nearness) {
                self.visit(best, value);
            }
            return;
        };
        let given = fields.get(field);
        let chosen = choices.iter().find(|choice| word_of(choice, field) == given.and_then(Value::as_str));
        if let (Some(choice), Some(_)) = (chosen, given) {
            return self.visit(choice, value);
        }
        let known: Vec<&str> = choices.iter().filter_map(|choice| word_of(choice, field)).collect();
        self.within(Step::Field(field.to_owned()), |walk| match given {
            Some(given) => walk.visit_word(&known, given),
            None => {
                let remedy = format!("write one of: {}", list(known.iter().copied()));
                walk.fault(None, "is missing", remedy);
            }
        });
    }

    fn visit_fields(&mut self, schema: &Value, fields: &Map<String, Value>) {
        let none = Map::new();
        let known = schema.get("properties").and_then(Value::as_object).unwrap_or(&none);
        let named = schema.get("additionalProperties").filter(|named| named.is_object());
        let required =
            schema.get("required").and_then(Value::as_array).map(Vec::as_slice).unwrap_or_default();
        let mut missing: Vec<&str> = required.iter().filter_map(Value::as_str).collect();
        missing.retain(|name| !fields.contains_key(*name));
        for (name, value) in fields {
            self.within(Step::Field(name.clone()), |walk| match known.get(name).or(named) {
                Some(inner) => {
                    if let Some(names) = schema.get("propertyNames") {
                        walk.visit_text(names, name);
                    }
                    walk.visit(inner, value);
                }
                None => walk.unknown((name, value), known, fields, &mut missing),
            });
        }
        for name in missing {
            let remedy = known.get(name).map_or_else(String::new, remedy_of);
            self.within(Step::Field(name.to_owned()), |walk| walk.fault(None, "is missing", remedy));
        }
    }

    /// A field that is not known. One that is near to a missing one is that one misspelt, and then it is not missing.
    fn unknown(
        &mut self,
        (name, value): (&str, &Value),
        known: &Map<String, Value>,
        fields: &Map<String, Value>,
        missing: &mut Vec<&str>,
    ) {
        let open: Vec<&str> =
            known.keys().map(String::as_str).filter(|known| !fields.contains_key(*known)).collect();
        let remedy = remedy(name, &open, || {
            format!("take it out; what could still be given here: {}", list(open.iter().copied()))
        });
        self.fault(Some(value), "no field of this name is known here", remedy);
        let (before, near) = (missing.len(), nearest(name, &open));
        missing.retain(|name| Some(*name) != near);
        if let Some(fault) = self.faults.last_mut() {
            fault.extra = missing.len() == before;
        }
    }

    fn visit_entries(&mut self, schema: &Value, value: &Value, entries: &[Value]) {
        let count = |limit: &str| schema.get(limit).and_then(Value::as_u64).map(usize::try_from);
        let least = count("minItems").and_then(Result::ok);
        let most = count("maxItems").and_then(Result::ok);
        let wrong = match (least, most) {
            (Some(least), Some(most)) if least == most && entries.len() != least => {
                format!("must have {least} entries, and has {}", entries.len())
            }
            (Some(least), _) if entries.len() < least => {
                format!("must have {least} or more entries, and has {}", entries.len())
            }
            _ => String::new(),
        };
        if !wrong.is_empty() {
            return self.fault(Some(value), wrong, "count them");
        }
        let Some(inner) = schema.get("items") else { return };
        for (number, entry) in entries.iter().enumerate() {
            self.within(Step::Entry(number), |walk| walk.visit(inner, entry));
        }
    }

    fn visit_number(&mut self, schema: &Value, value: &Value) {
        let limit = |name: &str| schema.get(name).and_then(Value::as_f64);
        let (least, most) = (limit("minimum"), limit("maximum"));
        let number = value.as_f64().unwrap_or(f64::NAN);
        if least.is_some_and(|least| number < least) || most.is_some_and(|most| number > most) {
            let wrong = match (least, most) {
                (Some(least), Some(most)) => format!("must be from {least} to {most}"),
                (Some(least), None) => format!("must be {least} or more"),
                _ => "is too large".to_owned(),
            };
            self.fault(Some(value), wrong, "check the number");
        }
    }
}
