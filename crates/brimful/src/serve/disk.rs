//! What changes on the disk from elsewhere: an editor, a copy, a file taken away.

use super::Shop;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

/// How often the folder is looked at.
const LOOK_EVERY: Duration = Duration::from_millis(700);

/// Tells open windows of jobs that were changed on the disk, taken away or put back.
pub(super) async fn look_at_the_disk(shop: Arc<Shop>) {
    let mut seen: BTreeMap<String, (f64, String)> = BTreeMap::new();
    let mut is_first = true;
    let mut ending = shop.ending.clone();
    loop {
        let look = {
            let shop = Arc::clone(&shop);
            tokio::task::spawn_blocking(move || shop.jobs.list())
        };
        if let Ok(Ok(jobs)) = look.await {
            seen.retain(|name, _| {
                let is_there = jobs.iter().any(|job| job.name == *name);
                if !is_there {
                    shop.tell(name, "", "");
                }
                is_there
            });
            for job in jobs {
                let known = seen.get(&job.name);
                if known.is_some_and(|(changed, _)| *changed == job.changed_s) {
                    continue;
                }
                let Ok(text) = shop.jobs.read(&job.name) else {
                    continue;
                };
                if !is_first && known.is_none_or(|(_, etag)| *etag != text.etag) {
                    shop.tell(&job.name, &text.etag, "");
                }
                seen.insert(job.name, (job.changed_s, text.etag));
            }
            is_first = false;
        }
        tokio::select! {
            () = tokio::time::sleep(LOOK_EVERY) => {}
            _ = ending.wait_for(|end| *end) => return,
        }
    }
}
