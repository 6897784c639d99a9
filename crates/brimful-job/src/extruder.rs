//! The same job welded by an extruder.

use super::defaults;
use super::job::Job;
use super::shop::Process;
use brimful_units::{Read, length_text, speed_text};

impl Job {
    /// The job with its welds laid by an extruder; what it leaves to a default is that of the extruder.
    #[must_use]
    pub fn welded_by_extruder(&self) -> Self {
        const CHOICE: &str = "extrusion";
        let by_default = |key: &str| {
            let is_default = self.defaults.iter().any(|used| used.key == key);
            let value = || defaults::row(key, CHOICE).value.as_str();
            is_default.then(value).flatten()
        };
        let mut job = self.clone();
        job.shop.process = Process::Extrusion;
        let shop = &mut job.shop;
        for (key, length) in [
            ("shop.gap", &mut shop.gap),
            ("shop.gun_length", &mut shop.gun_length),
            ("shop.gun_diameter", &mut shop.gun_diameter),
        ] {
            if let Some(Ok(Read::Quantity(default))) = by_default(key).map(length_text) {
                *length = default;
            }
        }
        if let Some(Ok(speed)) = by_default("shop.weld_speed").map(speed_text) {
            job.shop.rates.weld_speed = speed;
        }
        job
    }
}
