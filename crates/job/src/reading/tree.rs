//! From text to a tree of values. A field that is written twice is a finding: the usual reading keeps the last one and
//! says nothing.

use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;
use serde_json::{Map, Number, Value};

use crate::place::{Findings, Place};

/// One step from the top of the tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// To a field.
    Field(String),
    /// To an entry of a list.
    Entry(usize),
}

/// Parses the text.
pub(super) fn tree(text: &str, findings: &mut Findings) -> Option<Value> {
    let mut deserializer = serde_json::Deserializer::from_str(text);
    let (mut steps, mut twice) = (Vec::new(), Vec::new());
    let node = Node { steps: &mut steps, twice: &mut twice };
    let parsed = node.deserialize(&mut deserializer).and_then(|tree| deserializer.end().map(|()| tree));
    match parsed {
        Ok(tree) => {
            for steps in &twice {
                let place = super::place_of(steps, &tree, &super::Hands::default());
                findings.add(&place, "", "is written twice", "keep one of the two");
            }
            Some(tree)
        }
        Err(error) => {
            add_syntax(text, &error, findings);
            None
        }
    }
}

fn add_syntax(text: &str, error: &serde_json::Error, findings: &mut Findings) {
    let (line, column) = (error.line(), error.column());
    let at = text.lines().nth(line.saturating_sub(1)).unwrap_or_default().trim();
    let at = at.trim_end_matches([',', ':', '[', '{', ' ']);
    let (wrong, remedy) = match error.classify() {
        Category::Eof => {
            ("the file ends in the middle".to_owned(), "look for a bracket or a quote that is never closed")
        }
        _ => {
            let said = error.to_string();
            let said = said.split(" at line ").next().unwrap_or_default();
            (
                format!("not JSON: {said}"),
                "look here and just before: a comma, quote or bracket is missing or too many",
            )
        }
    };
    findings.add(&Place::top(&format!("line {line}, column {column}")), at, wrong, remedy);
}

/// Reads one value and everything in it.
struct Node<'a> {
    steps: &'a mut Vec<Step>,
    twice: &'a mut Vec<Vec<Step>>,
}

impl Node<'_> {
    fn inner(&mut self) -> Node<'_> {
        Node { steps: self.steps, twice: self.twice }
    }
}

impl<'de> DeserializeSeed<'de> for Node<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Node<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        Number::from_f64(value).map(Value::Number).ok_or_else(|| E::custom("number out of range"))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut list: A) -> Result<Value, A::Error> {
        let mut entries = Vec::new();
        loop {
            self.steps.push(Step::Entry(entries.len()));
            let entry = list.next_element_seed(self.inner())?;
            self.steps.pop();
            match entry {
                Some(entry) => entries.push(entry),
                None => return Ok(Value::Array(entries)),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<Value, A::Error> {
        let mut fields = Map::new();
        while let Some(name) = map.next_key::<String>()? {
            self.steps.push(Step::Field(name.clone()));
            let value = map.next_value_seed(self.inner())?;
            if fields.contains_key(&name) {
                self.twice.push(self.steps.clone());
            }
            self.steps.pop();
            fields.insert(name, value);
        }
        Ok(Value::Object(fields))
    }
}
