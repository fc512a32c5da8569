//! Takes the units that the schema found fault with out of the tree, so that the rest can be read and judged.

use serde_json::{Map, Value};

use super::tree::Step;
use super::walk::Fault;

/// Fields of a job that hold a list.
const LISTS: [&str; 8] = ["parts", "sheets", "fits", "hardware", "bars", "coverings", "liners", "options"];

/// Fields of a job whose entries have names.
const NAMED: [&str; 2] = ["metals", "openings"];

/// Leaves `null` for each faulty part, metal, sheet, opening or strip. False when nothing can be judged without the
/// faulty field, because every length depends on it.
pub(super) fn prune(tree: &mut Value, faults: &[Fault]) -> bool {
    // Fields that are not known go first, while all steps still lead somewhere.
    for fault in faults.iter().filter(|fault| fault.extra) {
        remove(tree, &fault.steps);
    }
    let mut others = faults.iter().filter(|fault| !fault.extra);
    others.all(|fault| prune_one(tree, &fault.steps))
}

fn remove(tree: &mut Value, steps: &[Step]) {
    if let [inside @ .., Step::Field(name)] = steps
        && let Some(Value::Object(fields)) = find(tree, inside)
    {
        fields.shift_remove(name);
    }
}

fn prune_one(tree: &mut Value, steps: &[Step]) -> bool {
    use Step::{Entry, Field};
    let Some(Field(first)) = steps.first() else { return false };
    let keep = match (first.as_str(), steps) {
        ("units" | "tape" | "plateloft", _) => return false,
        (first, [_, _, ..]) if LISTS.contains(&first) || NAMED.contains(&first) => 2,
        ("shop", [_, Field(strips), Entry(_), ..]) if strips == "strips" => 3,
        _ => 1,
    };
    if let Some(unit) = find(tree, &steps[..keep]) {
        *unit = if keep == 1 { empty(first) } else { Value::Null };
    } else if keep == 1 && matches!(first.as_str(), "parts" | "metals") {
        // Missing though it must be there: an empty one lets the rest be read.
        if let Value::Object(fields) = tree {
            fields.insert(first.clone(), empty(first));
        }
    }
    true
}

/// What stands for a field of the job that cannot be read.
fn empty(field: &str) -> Value {
    if LISTS.contains(&field) {
        Value::Array(Vec::new())
    } else if NAMED.contains(&field) {
        Value::Object(Map::new())
    } else {
        Value::Null
    }
}

/// Whether steps lead nowhere any more.
pub(super) fn is_gone(tree: &mut Value, steps: &[Step]) -> bool {
    find(tree, steps).is_none()
}

/// What steps lead to.
pub(super) fn find<'a>(tree: &'a mut Value, steps: &[Step]) -> Option<&'a mut Value> {
    steps.iter().try_fold(tree, |value, step| match step {
        Step::Field(name) => value.get_mut(name),
        Step::Entry(number) => value.get_mut(*number),
    })
}
