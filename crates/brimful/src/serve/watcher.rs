//! Watches the folder for changes by other programs: an editor, a copy, a deletion.

use super::state::AppState;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

/// How often the folder is polled.
const POLL_INTERVAL: Duration = Duration::from_millis(700);

/// Notifies open windows of jobs that were changed on the disk, deleted or put back.
pub(super) async fn watch(app: Arc<AppState>) {
    let mut seen: BTreeMap<String, (f64, String)> = BTreeMap::new();
    let mut is_first = true;
    let mut shutdown = app.shutdown.clone();
    loop {
        let look = {
            let app = Arc::clone(&app);
            tokio::task::spawn_blocking(move || app.jobs.list())
        };
        if let Ok(Ok(jobs)) = look.await {
            seen.retain(|name, _| {
                let is_there = jobs.iter().any(|job| job.name == *name);
                if !is_there {
                    app.notify(name, "", "");
                }
                is_there
            });
            for job in jobs {
                let known = seen.get(&job.name);
                if known.is_some_and(|(changed, _)| *changed == job.changed_s) {
                    continue;
                }
                let Ok(text) = app.jobs.read(&job.name) else {
                    continue;
                };
                if !is_first && known.is_none_or(|(_, etag)| *etag != text.etag) {
                    app.notify(&job.name, &text.etag, "");
                }
                seen.insert(job.name, (job.changed_s, text.etag));
            }
            is_first = false;
        }
        tokio::select! {
            () = tokio::time::sleep(POLL_INTERVAL) => {}
            _ = shutdown.wait_for(|end| *end) => return,
        }
    }
}
