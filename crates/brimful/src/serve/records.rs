//! Records of builds: ticks, notes, measured sizes, coupons, test readings. Kept in one database
//! file beside the jobs; what has been acknowledged is on the disk to stay.

use super::error::ApiError;
use rusqlite::{Connection, TransactionBehavior, params};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Each brings the database from its number to the next.
const MIGRATIONS: [&str; 2] = [
    "
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
",
    // A page names its entries for one job, and may use a name again for another.
    "
    CREATE TABLE entry_new (
        number INTEGER PRIMARY KEY,
        client_id TEXT NOT NULL,
        job TEXT NOT NULL,
        step TEXT NOT NULL,
        kind TEXT NOT NULL,
        value TEXT NOT NULL,
        made_s REAL NOT NULL,
        UNIQUE (job, client_id)
    );
    INSERT INTO entry_new SELECT number, client_id, job, step, kind, value, made_s FROM entry;
    DROP TABLE entry;
    ALTER TABLE entry_new RENAME TO entry;
    CREATE INDEX entry_of_job ON entry (job, number);
",
];

/// Letters of the longest value: a note of a page.
const MAX_VALUE: usize = 8_000;
/// Letters of the longest name of an entry.
const MAX_NAME: usize = 200;
/// Letters of the longest name of a step: it names every seam that is welded in it.
const MAX_STEP: usize = 4_000;
/// Entries sent at once.
const MAX_ENTRIES: usize = 1_000;
/// How long another process that writes is waited for.
const BUSY_TIMEOUT: Duration = Duration::from_secs(5);
/// How soon a busy database is tried again.
const RETRY_DELAY: Duration = Duration::from_millis(5);

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
    /// What was typed; of a tick what its step was like.
    pub(crate) value: String,
    /// When it was made, by the clock of the device.
    pub(crate) made_s: f64,
}

/// The database.
#[derive(Debug)]
pub(crate) struct Records(Mutex<Connection>);

impl Records {
    /// Opens the database, or makes it, and brings it up to date.
    pub(crate) fn open(path: &Path) -> Result<Self, ApiError> {
        let mut connection = Self::connected(path).map_err(database)?;
        if !migrated(&mut connection).map_err(database)? {
            return Err(ApiError::internal(
                "The records of builds were written by a newer Brimful.",
                "Take that one, or another folder of jobs.",
            ));
        }
        Ok(Self(Mutex::new(connection)))
    }

    fn connected(path: &Path) -> rusqlite::Result<Connection> {
        let connection = Connection::open(path)?;
        // Another server may be opening it too.
        connection.busy_timeout(BUSY_TIMEOUT)?;
        write_ahead(&connection)?;
        // An acknowledged entry has been through fsync.
        connection.pragma_update(None, "synchronous", "FULL")?;
        Ok(connection)
    }

    /// Keeps entries, all or none; those that are there already stay as they are.
    pub(crate) fn keep(&self, job: &str, entries: &[Entry]) -> Result<(), ApiError> {
        if entries.len() > MAX_ENTRIES {
            return Err(ApiError::too_large("one batch of entries", MAX_ENTRIES));
        }
        entries.iter().try_for_each(check)?;
        self.kept(job, entries).map_err(database)
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

    /// Puts all entries of a job under another name; whether there were any.
    pub(crate) fn rename(&self, job: &str, other: &str) -> Result<bool, ApiError> {
        let connection = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let change = "UPDATE entry SET job = ? WHERE job = ?";
        let done = connection.execute(change, [other, job]);
        done.map(|rows| rows > 0).map_err(database)
    }

    /// All entries of a job, in the order in which they came.
    pub(crate) fn of(&self, job: &str) -> Result<Vec<Entry>, ApiError> {
        self.read(job).map_err(database)
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

/// Has the journal written ahead. Of two that switch to it at once each may hold what the other needs, and
/// SQLite then has one of them come again rather than wait.
fn write_ahead(connection: &Connection) -> rusqlite::Result<()> {
    let begun = Instant::now();
    loop {
        let done = connection.pragma_update(None, "journal_mode", "WAL");
        let is_busy = done.as_ref().is_err_and(|fault| {
            fault.sqlite_error_code() == Some(rusqlite::ErrorCode::DatabaseBusy)
        });
        if !is_busy || begun.elapsed() > BUSY_TIMEOUT {
            return done;
        }
        std::thread::sleep(RETRY_DELAY);
    }
}

/// Brings a database up to date, if its form is known here.
fn migrated(connection: &mut Connection) -> rusqlite::Result<bool> {
    // The number is read when nobody else can be changing it any more.
    let change = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let version: usize = change.pragma_query_value(None, "user_version", |row| row.get(0))?;
    if version > MIGRATIONS.len() {
        return Ok(false);
    }
    for migration in &MIGRATIONS[version..] {
        change.execute_batch(migration)?;
    }
    change.pragma_update(None, "user_version", MIGRATIONS.len())?;
    change.commit()?;
    Ok(true)
}

fn check(entry: &Entry) -> Result<(), ApiError> {
    let named = |text: &str, longest| !text.is_empty() && text.len() <= longest;
    if !named(&entry.client_id, MAX_NAME) || !named(&entry.step, MAX_STEP) {
        return Err(ApiError::unprocessable(
            format!(
                "An entry needs a name of its own of at most {MAX_NAME} letters and the step it is about, of at most {MAX_STEP}."
            ),
            "Send it with both.",
        ));
    }
    if entry.value.len() > MAX_VALUE {
        return Err(ApiError::too_large("an entry", MAX_VALUE));
    }
    if !entry.made_s.is_finite() {
        return Err(ApiError::unprocessable(
            "`made_s` is no time.",
            "Send seconds since 1970.",
        ));
    }
    Ok(())
}

fn database(fault: rusqlite::Error) -> ApiError {
    ApiError::internal(
        format!("The records of builds cannot be reached: {fault}."),
        "What was not acknowledged is sent again later; see whether there is room on the disk.",
    )
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    fn entry(id: &str) -> Entry {
        Entry {
            client_id: id.to_owned(),
            step: "3".to_owned(),
            kind: Kind::Measured,
            value: "349,5 mm".to_owned(),
            made_s: 1.5e9,
        }
    }

    fn ids(records: &Records, job: &str) -> Vec<String> {
        let entries = records.of(job).unwrap().into_iter();
        entries.map(|it| it.client_id).collect()
    }

    #[test]
    fn entries_sent_twice_are_kept_once_and_outlive_the_process() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("records.sqlite");
        let records = Records::open(&path).unwrap();
        records.keep("box", &[entry("a"), entry("b")]).unwrap();
        records.keep("box", &[entry("b"), entry("c")]).unwrap();
        drop(records);
        let again = Records::open(&path).unwrap();
        assert_eq!(ids(&again, "box"), ["a", "b", "c"]);
        assert!(again.of("other").unwrap().is_empty());
        let mut long = entry("d");
        long.value = "x".repeat(MAX_VALUE + 1);
        assert!(again.keep("box", &[entry("e"), long]).is_err());
        assert_eq!(again.of("box").unwrap().len(), 3, "all or none");
    }

    #[test]
    fn each_job_has_its_own_entries() {
        let folder = tempfile::tempdir().unwrap();
        let records = Records::open(&folder.path().join("records.sqlite")).unwrap();
        records.keep("box", &[entry("a")]).unwrap();
        records.keep("other", &[entry("a"), entry("b")]).unwrap();
        assert_eq!(ids(&records, "other"), ["a", "b"]);
        records.rename("other", "other.removed").unwrap();
        assert!(ids(&records, "other").is_empty());
        assert_eq!(ids(&records, "other.removed"), ["a", "b"]);
        assert_eq!(ids(&records, "box"), ["a"]);
    }

    #[test]
    fn what_an_older_one_kept_is_still_there() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("records.sqlite");
        let old = Connection::open(&path).unwrap();
        old.execute_batch(MIGRATIONS[0]).unwrap();
        old.execute_batch(
            "INSERT INTO entry VALUES (1, 'a', 'box', '3', 'tick', '', 1), (2, 'b', 'other', '3', 'note', 'n', 2);
            PRAGMA user_version = 1;",
        )
        .unwrap();
        drop(old);
        let records = Records::open(&path).unwrap();
        records.keep("box", &[entry("a"), entry("b")]).unwrap();
        assert_eq!(ids(&records, "box"), ["a", "b"]);
        assert_eq!(records.of("box").unwrap()[0].kind, Kind::Tick);
        assert_eq!(records.of("other").unwrap()[0].value, "n");
    }

    #[test]
    fn what_a_newer_one_wrote_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("records.sqlite");
        drop(Records::open(&path).unwrap());
        let newer = MIGRATIONS.len() + 1;
        let connection = Connection::open(&path).unwrap();
        connection
            .pragma_update(None, "user_version", newer)
            .unwrap();
        drop(connection);
        let refused = Records::open(&path).unwrap_err().into_fault();
        assert!(refused.says.contains("newer Brimful"), "{refused:?}");
    }

    #[test]
    fn many_servers_may_begin_at_once() {
        for _ in 0..20 {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("records.sqlite");
            std::thread::scope(|scope| {
                let opening = || Records::open(&path).map(drop);
                let all: Vec<_> = (0..4).map(|_| scope.spawn(opening)).collect();
                for opened in all {
                    opened.join().unwrap().unwrap();
                }
            });
        }
    }
}
