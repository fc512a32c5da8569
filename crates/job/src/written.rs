//! A field as it stands in the job file.
//!
//! A recipe names a field by what it knows: `inset.AB`, `flanges.CD.leg`. The file may say the same thing otherwise: one
//! length for all sides, the shop's corner for every part, a field of an edited opposite hand. What a
//! message names must be found in the file by looking for it.

use serde_json::Value;

use crate::reading::{alternatives, resolved};
use crate::schema::SCHEMA;

/// The fields that a part goes by, as written.
#[derive(Debug, Clone, Default)]
pub(crate) struct Written {
    /// The part.
    pub(crate) part: Value,
    /// Its fields that stand in `opposite_hand.edit`.
    pub(crate) edited: Vec<String>,
    /// The shop's habits.
    pub(crate) shop: Value,
}

impl PartialEq for Written {
    /// How a part is written does not make it another: two writings of the same sizes are one part.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Written {
    /// The path of a field, as far as the file and its schema know it.
    pub(crate) fn field(&self, path: &str) -> String {
        let steps = steps(path);
        let Some(first) = steps.first().map(String::as_str) else { return String::new() };
        // A place on the finished part, "bend of flange AB", is no field.
        if first == "shop" || path.contains(' ') {
            return path.to_owned();
        }
        let schema: Vec<&Value> = part_schema(&self.part).into_iter().collect();
        if self.part.get(first).is_none() && self.shop.get(first).is_some() {
            let shop: Vec<&Value> =
                SCHEMA.get("$defs").and_then(|defs| defs.get("ShopFile")).into_iter().collect();
            return format!("shop.{}", known(&steps, Some(&self.shop), shop));
        }
        let known = known(&steps, Some(&self.part), schema);
        let edited = self.edited.iter().any(|field| field == first);
        if edited { format!("opposite_hand.edit.{known}") } else { known }
    }
}

/// The schema of a part by its shape.
fn part_schema(part: &Value) -> Option<&'static Value> {
    let shape = part.get("shape")?.as_str()?;
    let choices = alternatives(SCHEMA.get("$defs")?.get("PartFile")?);
    choices.into_iter().find(|choice| crate::reading::word_of(choice, "shape") == Some(shape))
}

/// "flanges.AB[0]" as its steps; entries keep their brackets.
fn steps(path: &str) -> Vec<String> {
    let apart = path.replace('[', ".[");
    apart.split('.').filter(|step| !step.is_empty()).map(str::to_owned).collect()
}

/// The steps that lead to something written, or to something that the schema lets be written.
fn known(steps: &[String], mut value: Option<&Value>, mut schema: Vec<&'static Value>) -> String {
    let mut path = String::new();
    for step in steps {
        let turned: String = step.chars().rev().collect();
        let found = match value {
            Some(Value::Array(entries)) => entry(entries, step),
            Some(Value::Object(fields)) => [step, &turned]
                .into_iter()
                .find(|name| fields.contains_key(*name))
                .map(|name| (name.clone(), fields.get(name))),
            _ => None,
        };
        schema = schema.iter().flat_map(|schema| inner(schema, step)).collect();
        let found = found.or_else(|| {
            let open = value.is_none_or(Value::is_object) && !schema.is_empty();
            open.then(|| (step.clone(), None))
        });
        let Some((name, next)) = found else { break };
        if !path.is_empty() && !name.starts_with('[') {
            path.push('.');
        }
        path.push_str(&name);
        value = next;
    }
    path
}

/// The entry of a list by its number.
fn entry<'a>(entries: &'a [Value], step: &str) -> Option<(String, Option<&'a Value>)> {
    let number = step.strip_prefix('[')?.strip_suffix(']')?.parse::<usize>().ok()?;
    Some((step.to_owned(), Some(entries.get(number)?)))
}

/// What a schema says of one step inside.
fn inner(schema: &'static Value, step: &str) -> Vec<&'static Value> {
    let of = |choice: &'static Value| {
        if step.starts_with('[') {
            return choice.get("items");
        }
        let named = choice.get("additionalProperties").filter(|named| named.is_object());
        choice.get("properties").and_then(|known| known.get(step)).or(named)
    };
    alternatives(schema).into_iter().filter_map(of).map(resolved).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn written() -> Written {
        Written {
            part: json!({
                "mark": "L", "shape": "tapered_lid", "inset": "3", "hinge": { "side": "AB" }, "outset": "1",
            }),
            edited: vec!["outset".to_owned()],
            shop: json!({ "corner": { "tab": "1/2", "count": 3 }, "seam_gap": "1/16" }),
        }
    }

    #[test]
    fn one_length_for_all_sides_has_no_side() {
        assert_eq!(written().field("inset.AB"), "inset");
        let mut sides = written();
        sides.part["inset"] = json!({ "BA": "3", "BC": "2" });
        assert_eq!(sides.field("inset.AB"), "inset.BA");
        assert_eq!(sides.field("inset.CD"), "inset.CD");
    }

    #[test]
    fn the_shops_corner_stands_under_the_shop() {
        assert_eq!(written().field("corner.count"), "shop.corner.count");
        let mut own = written();
        own.part["corner"] = json!("butt");
        assert_eq!(own.field("corner.count"), "corner");
    }

    #[test]
    fn fields_of_an_edited_hand_stand_in_its_edit() {
        assert_eq!(written().field("outset"), "opposite_hand.edit.outset");
        assert_eq!(written().field("rise"), "rise");
    }

    #[test]
    fn a_field_that_no_file_has_is_cut_to_what_there_is() {
        assert_eq!(written().field("hinge.pin"), "hinge");
        assert_eq!(written().field("hinge.leaf"), "hinge.leaf");
        assert_eq!(written().field("wings.AB"), "");
        assert_eq!(written().field("bend of skirt AB"), "bend of skirt AB");
    }

    #[test]
    fn an_entry_of_a_list_is_named_by_its_number() {
        let part = json!({ "shape": "panel", "flanges": { "AB": "3 up" }, "holes": [{}] });
        let written = Written { part, ..Written::default() };
        assert_eq!(written.field("flanges.AB.leg"), "flanges.AB");
        assert_eq!(written.field("holes[0].diameter"), "holes[0].diameter");
        assert_eq!(written.field("holes[4].diameter"), "holes");
    }
}
