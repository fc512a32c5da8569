//! What a field of the job file is called in the trade: the first clause of what the schema says of it.

use serde_json::Value;

use crate::schema::SCHEMA;

/// The words of a field, "Spacing of the frames, counted from the aft end"; `path` is as messages write it,
/// `lids[0].opening` or `shop.relief`, first looked for in the shape that `shape` names, then in the job. `None` for a field that
/// there is not, or of which nothing is said.
#[must_use]
pub fn field_words(shape: &str, path: &str) -> Option<String> {
    let names: Vec<&str> = path.split('.').map(|name| name.split('[').next().unwrap_or_default()).collect();
    let of_shape = part_of(shape).and_then(|part| described(part, &names));
    let words = of_shape.or_else(|| described(&SCHEMA, &names))?;
    let clause = words.split(['.', ';']).next().unwrap_or_default().trim();
    (!clause.is_empty()).then(|| clause.to_owned())
}

fn definition(schema: &Value) -> &Value {
    let name = schema.get("$ref").and_then(Value::as_str).and_then(|path| path.strip_prefix("#/$defs/"));
    name.and_then(|name| SCHEMA.get("$defs")?.get(name)).unwrap_or(schema)
}

/// The definition of parts of a shape.
fn part_of(shape: &str) -> Option<&'static Value> {
    let all = SCHEMA.get("$defs")?.as_object()?;
    all.values().find(|part| {
        let word = part.get("properties").and_then(|fields| fields.get("shape"));
        let known = word.map(definition).and_then(|word| word.get("enum")).and_then(Value::as_array);
        known.is_some_and(|known| known.iter().any(|known| known == shape))
    })
}

/// What is said of the field that these names lead to.
fn described<'a>(schema: &'a Value, names: &[&str]) -> Option<&'a str> {
    let (name, rest) = names.split_first()?;
    let field = field(schema, name)?;
    if rest.is_empty() {
        return field.get("description").or_else(|| definition(field).get("description"))?.as_str();
    }
    // Names that the job gives itself, such as those of sides, are in no schema: the group's own words stand for them.
    described(field, rest).or_else(|| described(schema, &names[..1]))
}

/// A field of this name in a group of fields, in any of its choices or in the entries of a list.
fn field<'a>(schema: &'a Value, name: &str) -> Option<&'a Value> {
    let schema = definition(schema);
    if let Some(field) = schema.get("properties").and_then(|fields| fields.get(name)) {
        return Some(field);
    }
    let choices = schema.get("anyOf").and_then(Value::as_array).into_iter().flatten();
    choices.chain(schema.get("items")).find_map(|choice| field(choice, name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_called_what_the_schema_says_of_it() {
        let words = |shape, path| field_words(shape, path).unwrap_or_default();
        assert!(words("locker", "frames_every").starts_with("Spacing of the frames"));
        assert!(
            words("locker", "lids[0].opening").starts_with("Opening"),
            "{}",
            words("locker", "lids[0].opening")
        );
        assert!(!words("locker", "shop.relief").is_empty());
        assert_eq!(words("tapered_lid", "inset.AB"), words("tapered_lid", "inset"));
        assert!(!words("tapered_lid", "inset").is_empty());
        assert_ne!(words("pan", "height"), words("opening", "shop.gap"));
        assert_eq!(field_words("locker", "no_such_field"), None);
    }
}
