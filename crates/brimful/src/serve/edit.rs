//! Changes to a job's text key by key, everything else (comments, order, spacing) left as it is.
//!
//! A place is written as the faults of a job write it, counted from 1: `body.box[2]`,
//! `opening[3].at[1]`. What is set is kept as typed, also where it cannot be used.

use super::refusal::Refusal;
use serde::Deserialize;
use serde_json::Value as Json;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value};

/// Steps in the longest place.
const DEEPEST: usize = 12;
/// Entries of the longest list.
const LONGEST: usize = 10_000;

/// One change.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Edit {
    /// Where.
    path: String,
    /// What is written there.
    #[serde(default)]
    set: Option<Json>,
    /// A block that is added to a list of blocks.
    #[serde(default)]
    append: Option<Json>,
    /// Whether what is there goes.
    #[serde(default)]
    remove: bool,
}

/// The text after all changes.
///
/// # Errors
/// The text is no TOML (it can only be written as a whole), or a place that is not there.
pub(crate) fn edited(text: &str, edits: &[Edit]) -> Result<String, Refusal> {
    let mut document: DocumentMut = text.parse().map_err(|_| {
        Refusal::unusable(
            "The job's text has a slip in its form, so single entries cannot be changed.",
            "Mend the text itself first.",
        )
    })?;
    for edit in edits {
        let steps = steps(&edit.path)
            .ok_or_else(|| misplaced(&edit.path, "it is no place in a job file"))?;
        let done = match (&edit.set, &edit.append, edit.remove) {
            (Some(value), None, false) => {
                let value = toml(value).ok_or_else(|| misplaced(&edit.path, "null is no entry"))?;
                set(document.as_item_mut(), &steps, value)
            }
            (None, Some(block), false) => append(document.as_item_mut(), &steps, block),
            (None, None, true) => remove(document.as_item_mut(), &steps),
            _ => Err("one of `set`, `append` and `remove` is wanted"),
        };
        done.map_err(|reason| misplaced(&edit.path, reason))?;
    }
    Ok(document.to_string())
}

fn misplaced(path: &str, reason: &str) -> Refusal {
    Refusal::unusable(
        format!("`{path}` cannot be changed: {reason}."),
        "Write the place as `opening[2].at[1]`, counted from 1.",
    )
}

/// A step on the way to a place.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Step {
    Key(String),
    /// From 0.
    Number(usize),
}

fn steps(path: &str) -> Option<Vec<Step>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, numbers) = part.split_once('[').map_or((part, None), |(key, rest)| {
            (key, Some(rest.strip_suffix(']').unwrap_or("")))
        });
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | ' ');
        if key.is_empty() || !key.chars().all(plain) {
            return None;
        }
        steps.push(Step::Key(key.to_owned()));
        for number in numbers.into_iter().flat_map(|all| all.split("][")) {
            let number: usize = number.parse().ok()?;
            if !(1..=LONGEST).contains(&number) {
                return None;
            }
            steps.push(Step::Number(number - 1));
        }
    }
    (steps.len() <= DEEPEST).then_some(steps)
}

type Done = Result<(), &'static str>;

const NO_BLOCK: &str = "what is there holds no entries of its own";
const NO_LIST: &str = "what is there is no list";
const NOT_THERE: &str = "there is nothing there";

fn set(item: &mut Item, steps: &[Step], value: Value) -> Done {
    match steps {
        [] => {
            put(item, value);
            Ok(())
        }
        [Step::Key(key), rest @ ..] => {
            if item.is_none() {
                *item = Item::Table(new_block());
            }
            let block = item.as_table_like_mut().ok_or(NO_BLOCK)?;
            set(entry(block, key), rest, value)
        }
        [Step::Number(number), rest @ ..] => {
            if item.is_none() {
                *item = Item::Value(Value::Array(Array::new()));
            }
            match item {
                Item::ArrayOfTables(blocks) => {
                    let block = blocks.get_mut(*number).ok_or(NOT_THERE)?;
                    let [Step::Key(key), rest @ ..] = rest else {
                        return Err(NO_BLOCK);
                    };
                    set(entry(block, key), rest, value)
                }
                Item::Value(Value::Array(list)) => set_in_list(list, *number, rest, value),
                _ => Err(NO_LIST),
            }
        }
    }
}

fn entry<'a>(block: &'a mut dyn TableLike, key: &str) -> &'a mut Item {
    block.entry(key).or_insert(Item::None)
}

/// A place in a list; the list is filled up to it with noughts.
fn set_in_list(list: &mut Array, number: usize, rest: &[Step], value: Value) -> Done {
    while list.len() <= number {
        list.push(0);
    }
    let old = list.get_mut(number).ok_or(NOT_THERE)?;
    match rest {
        [] => {
            let decor = old.decor().clone();
            *old = value;
            *old.decor_mut() = decor;
            Ok(())
        }
        [Step::Number(next), rest @ ..] => {
            if !old.is_array() {
                *old = Value::Array(Array::new());
            }
            let inner = old.as_array_mut().ok_or(NO_LIST)?;
            set_in_list(inner, *next, rest, value)
        }
        [Step::Key(key), rest @ ..] => {
            let block = old.as_inline_table_mut().ok_or(NO_BLOCK)?;
            set(entry(block, key), rest, value)
        }
    }
}

/// Puts a value in place of another, in its spacing and before its comment.
fn put(item: &mut Item, mut value: Value) {
    if let Some(old) = item.as_value() {
        *value.decor_mut() = old.decor().clone();
    }
    *item = Item::Value(value);
}

fn append(item: &mut Item, steps: &[Step], block: &Json) -> Done {
    if let [Step::Key(key), rest @ ..] = steps {
        if item.is_none() {
            *item = Item::Table(new_block());
        }
        let holder = item.as_table_like_mut().ok_or(NO_BLOCK)?;
        return append(entry(holder, key), rest, block);
    }
    if let [Step::Number(number), Step::Key(key), rest @ ..] = steps {
        let blocks = item.as_array_of_tables_mut().ok_or(NO_LIST)?;
        let holder = blocks.get_mut(*number).ok_or(NOT_THERE)?;
        return append(entry(holder, key), rest, block);
    }
    if !steps.is_empty() {
        return Err(NO_LIST);
    }
    let entries = block.as_object().ok_or("a block has entries")?;
    if item.is_none() {
        *item = Item::ArrayOfTables(ArrayOfTables::new());
    }
    match item {
        Item::ArrayOfTables(blocks) => {
            let mut table = new_block();
            for (key, value) in entries {
                table.insert(key, Item::Value(toml(value).ok_or("null is no entry")?));
            }
            blocks.push(table);
            Ok(())
        }
        Item::Value(Value::Array(list)) => {
            list.push(toml(block).ok_or("null is no entry")?);
            Ok(())
        }
        _ => Err(NO_LIST),
    }
}

fn remove(item: &mut Item, steps: &[Step]) -> Done {
    match steps {
        [] => Err(NOT_THERE),
        [Step::Key(key)] => {
            let block = item.as_table_like_mut().ok_or(NO_BLOCK)?;
            block.remove(key).map(drop).ok_or(NOT_THERE)
        }
        [Step::Number(number)] => match item {
            Item::ArrayOfTables(blocks) if *number < blocks.len() => {
                blocks.remove(*number);
                Ok(())
            }
            Item::Value(Value::Array(list)) if *number < list.len() => {
                list.remove(*number);
                Ok(())
            }
            _ => Err(NOT_THERE),
        },
        [Step::Key(key), rest @ ..] => {
            let block = item.as_table_like_mut().ok_or(NO_BLOCK)?;
            let inner = block.get_mut(key).ok_or(NOT_THERE)?;
            remove(inner, rest)?;
            // A list of blocks with no block left is not written at all.
            if inner
                .as_array_of_tables()
                .is_some_and(ArrayOfTables::is_empty)
            {
                block.remove(key);
            }
            Ok(())
        }
        [Step::Number(number), rest @ ..] => match item {
            Item::ArrayOfTables(blocks) => {
                let block = blocks.get_mut(*number).ok_or(NOT_THERE)?;
                let [Step::Key(key), rest @ ..] = rest else {
                    return Err(NO_BLOCK);
                };
                if rest.is_empty() {
                    return block.remove(key).map(drop).ok_or(NOT_THERE);
                }
                remove(block.get_mut(key).ok_or(NOT_THERE)?, rest)
            }
            Item::Value(Value::Array(list)) => remove_in_list(list, *number, rest),
            _ => Err(NO_LIST),
        },
    }
}

fn remove_in_list(list: &mut Array, number: usize, rest: &[Step]) -> Done {
    let inner = list.get_mut(number).ok_or(NOT_THERE)?;
    match rest {
        [Step::Number(next)] => {
            let inner = inner.as_array_mut().ok_or(NO_LIST)?;
            if *next >= inner.len() {
                return Err(NOT_THERE);
            }
            inner.remove(*next);
            Ok(())
        }
        [Step::Number(next), rest @ ..] => {
            remove_in_list(inner.as_array_mut().ok_or(NO_LIST)?, *next, rest)
        }
        _ => Err(NO_BLOCK),
    }
}

/// A block with an empty line before it.
fn new_block() -> Table {
    let mut table = Table::new();
    table.decor_mut().set_prefix("\n");
    table
}

/// A value of the request as it is written in a job; none for null.
fn toml(value: &Json) -> Option<Value> {
    Some(match value {
        Json::Null => return None,
        Json::Bool(truth) => Value::from(*truth),
        Json::Number(number) => match number.as_i64() {
            Some(whole) => Value::from(whole),
            None => Value::from(number.as_f64()?),
        },
        Json::String(text) => Value::from(text.as_str()),
        Json::Array(list) => Value::Array(list.iter().map(toml).collect::<Option<Array>>()?),
        Json::Object(entries) => {
            let mut table = InlineTable::new();
            for (key, value) in entries {
                table.insert(key, toml(value)?);
            }
            Value::InlineTable(table)
        }
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use serde_json::json;

    const JOB: &str = "# my tank\n[body]\nbox = [680, 380, 280] # outside\nthickness = 8\n\n[[opening]]\nname = \"tap\" # brass\nat = [10, 20]\n";

    fn after(edits: Json) -> Result<String, Refusal> {
        let edits: Vec<Edit> = serde_json::from_value(edits).unwrap();
        edited(JOB, &edits)
    }

    #[test]
    fn only_what_is_named_changes() {
        let text = after(json!([
            { "path": "body.box[2]", "set": "15 in" },
            { "path": "opening[1].at[1]", "set": 12.5 },
        ]));
        let wanted = JOB
            .replace("[680, 380, 280]", "[680, \"15 in\", 280]")
            .replace("[10, 20]", "[12.5, 20]");
        assert_eq!(text.unwrap(), wanted);
    }

    #[test]
    fn blocks_come_and_go() {
        let text = after(json!([
            { "path": "opening", "append": { "name": "vent", "at": [1, 2] } },
            { "path": "opening[1]", "remove": true },
            { "path": "space.box", "set": [700, 400, 300] },
            { "path": "stock.sheet", "append": { "size": [2000, 1000], "thickness": 8 } },
        ]))
        .unwrap();
        assert!(
            !text.contains("tap") && text.contains("[[opening]]\nname = \"vent\""),
            "{text}"
        );
        assert!(text.contains("\n[space]\nbox = [700, 400, 300]"), "{text}");
        assert!(
            text.contains("[[stock.sheet]]\nsize = [2000, 1000]"),
            "{text}"
        );
        assert!(text.starts_with("# my tank\n[body]"), "{text}");
    }

    #[test]
    fn what_is_not_there_is_refused() {
        for path in [
            "",
            "body..box",
            "opening[0].at",
            "opening[4].at[1]",
            "body.thickness.x",
            "a[b]",
        ] {
            let edit = json!([{ "path": path, "set": 1 }]);
            assert!(after(edit).is_err(), "{path}");
        }
        assert!(after(json!([{ "path": "body.at", "remove": true }])).is_err());
        assert!(after(json!([{ "path": "body.at" }])).is_err());
        assert!(after(json!([{ "path": "body.at", "set": null }])).is_err());
    }

    /// Whatever is asked, the answer is a refusal or a text that is still TOML.
    #[test]
    fn random_edits_leave_a_text_that_can_be_read() {
        let mut random = fastrand::Rng::with_seed(3);
        let words = [
            "body",
            "box",
            "opening",
            "at",
            "name",
            "stock",
            "sheet",
            "x y",
            "thickness",
        ];
        let values = [
            json!(1),
            json!(-2.5),
            json!("a \"b\" # c\n"),
            json!([1, [2, "3"], { "a": 4 }]),
            json!({ "b c": true, "d": { "e": [] } }),
            json!(null),
        ];
        let mut text = JOB.to_owned();
        for _ in 0..3_000 {
            let mut path = String::new();
            for step in 0..random.usize(1..4) {
                path.push_str(if step == 0 { "" } else { "." });
                path.push_str(words[random.usize(..words.len())]);
                for _ in 0..random.usize(..3) / 2 {
                    path.push_str(&format!("[{}]", random.usize(..5)));
                }
            }
            let value = values[random.usize(..values.len())].clone();
            let edit = match random.usize(..4) {
                0 => json!([{ "path": path, "append": value }]),
                1 => json!([{ "path": path, "remove": true }]),
                _ => json!([{ "path": path, "set": value }]),
            };
            let edits: Vec<Edit> = serde_json::from_value(edit.clone()).unwrap();
            if let Ok(after) = edited(&text, &edits) {
                assert!(
                    after.parse::<DocumentMut>().is_ok(),
                    "{edit} made of\n{text}\n{after}"
                );
                text = if after.len() > 20_000 {
                    JOB.to_owned()
                } else {
                    after
                };
            }
        }
    }
}
