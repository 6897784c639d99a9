//! Records of builds: ticks, notes, measured sizes, coupons, test readings. Kept in one database
//! file beside the jobs; what has been acknowledged is on the disk to stay.

use super::refusal::Refusal;
use rusqlite::{Connection, params};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::path::Path;
use std::sync::{Mutex, PoisonError};

/// Each brings the database from its number to the next.
const MIGRATIONS: [&str; 1] = ["
    CREATE TABLE entry (
        number INTEGER PRIMARY KEY,
        client_id TEXT NOT NULL UNIQUE,
        job TEXT NOT NULL,
        step TEXT NOT NULL,
        kind TEXT NOT NULL,
        value TEXT NOT NULL,
        made_s REAL NOT NULL
    );
    CREATE INDEX entry_of_job ON entry (job, number);
"];

/// Letters of the longest value: a note of a page.
const LONGEST: usize = 8_000;
/// Letters of the longest name of a step or an entry.
const LONGEST_NAME: usize = 200;
/// Entries sent at once.
const MOST: usize = 1_000;

/// What an entry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Kind {
    /// The step is done.
    Tick,
    /// It is not, after all.
    Untick,
    Note,
    /// A size as measured on the piece.
    Measured,
    /// What a welded test strip came to.
    Coupon,
    /// A reading of the water test.
    Reading,
}

/// One entry, as a page made it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Entry {
    /// Given by the page that made it: sent twice it is kept once.
    pub(crate) client_id: String,
    /// The step of the order of work.
    pub(crate) step: String,
    pub(crate) kind: Kind,
    /// In words, as typed.
    pub(crate) value: String,
    /// When it was made, by the clock of whoever made it.
    pub(crate) made_s: f64,
}

/// The database.
#[derive(Debug)]
pub(crate) struct Records(Mutex<Connection>);

impl Records {
    /// Opens the database, or makes it, and brings it up to date.
    pub(crate) fn open(path: &Path) -> Result<Self, Refusal> {
        Self::opened(path).map_err(trouble)
    }

    fn opened(path: &Path) -> rusqlite::Result<Self> {
        let mut connection = Connection::open(path)?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        // An acknowledged entry has been through fsync.
        connection.pragma_update(None, "synchronous", "FULL")?;
        connection.busy_timeout(std::time::Duration::from_secs(5))?;
        let version: usize =
            connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
        for (number, migration) in MIGRATIONS.iter().enumerate().skip(version) {
            let change = connection.transaction()?;
            change.execute_batch(migration)?;
            change.pragma_update(None, "user_version", number + 1)?;
            change.commit()?;
        }
        Ok(Self(Mutex::new(connection)))
    }

    /// Keeps entries, all or none; those that are there already stay as they are.
    pub(crate) fn keep(&self, job: &str, entries: &[Entry]) -> Result<(), Refusal> {
        if entries.len() > MOST {
            return Err(Refusal::too_large("one batch of entries", MOST));
        }
        entries.iter().try_for_each(check)?;
        self.kept(job, entries).map_err(trouble)
    }

    fn kept(&self, job: &str, entries: &[Entry]) -> rusqlite::Result<()> {
        let mut connection = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let change = connection.transaction()?;
        for entry in entries {
            let kind = serde_json::to_value(entry.kind).unwrap_or_default();
            change.execute(
                "INSERT OR IGNORE INTO entry (client_id, job, step, kind, value, made_s) VALUES (?, ?, ?, ?, ?, ?)",
                params![entry.client_id, job, entry.step, kind.as_str(), entry.value, entry.made_s],
            )?;
        }
        change.commit()
    }

    /// All entries of a job, in the order in which they came.
    pub(crate) fn of(&self, job: &str) -> Result<Vec<Entry>, Refusal> {
        self.read(job).map_err(trouble)
    }

    fn read(&self, job: &str) -> rusqlite::Result<Vec<Entry>> {
        let connection = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let mut query = connection.prepare(
            "SELECT client_id, step, kind, value, made_s FROM entry WHERE job = ? ORDER BY number",
        )?;
        let rows = query.query_map([job], |row| {
            let kind: String = row.get(2)?;
            Ok(Entry {
                client_id: row.get(0)?,
                step: row.get(1)?,
                kind: serde_json::from_value(kind.into()).unwrap_or(Kind::Note),
                value: row.get(3)?,
                made_s: row.get(4)?,
            })
        })?;
        rows.collect()
    }
}

fn check(entry: &Entry) -> Result<(), Refusal> {
    let named = |text: &str| !text.is_empty() && text.len() <= LONGEST_NAME;
    if !named(&entry.client_id) || !named(&entry.step) {
        return Err(Refusal::unusable(
            "An entry needs a name of its own and the step it is about, each of at most 200 letters.",
            "Send it with both.",
        ));
    }
    if entry.value.len() > LONGEST {
        return Err(Refusal::too_large("an entry", LONGEST));
    }
    if !entry.made_s.is_finite() {
        return Err(Refusal::unusable(
            "`made_s` is no time.",
            "Send seconds since 1970.",
        ));
    }
    Ok(())
}

fn trouble(fault: rusqlite::Error) -> Refusal {
    Refusal::own(
        format!("The records of builds cannot be reached: {fault}."),
        "What was not acknowledged is sent again later; see whether there is room on the disk.",
    )
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    #[test]
    fn entries_sent_twice_are_kept_once_and_outlive_the_process() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("records.sqlite");
        let entry = |id: &str| Entry {
            client_id: id.to_owned(),
            step: "3".to_owned(),
            kind: Kind::Measured,
            value: "349,5 mm".to_owned(),
            made_s: 1.5e9,
        };
        let records = Records::open(&path).unwrap();
        records.keep("box", &[entry("a"), entry("b")]).unwrap();
        records.keep("box", &[entry("b"), entry("c")]).unwrap();
        drop(records);
        let again = Records::open(&path).unwrap();
        let ids: Vec<String> = again
            .of("box")
            .unwrap()
            .into_iter()
            .map(|it| it.client_id)
            .collect();
        assert_eq!(ids, ["a", "b", "c"]);
        assert!(again.of("other").unwrap().is_empty());
        let mut long = entry("d");
        long.value = "x".repeat(LONGEST + 1);
        assert!(again.keep("box", &[entry("e"), long]).is_err());
        assert_eq!(again.of("box").unwrap().len(), 3, "all or none");
    }
}
