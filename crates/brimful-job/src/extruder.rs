//! The same job welded by an extruder.

use super::defaults;
use super::job::Job;
use super::shop::Process;
use brimful_units::{Read, length_text, speed_text};
use toml::de::DeValue;

impl Job {
    /// Whether a key stands at its default.
    #[must_use]
    pub fn is_default(&self, key: &str) -> bool {
        self.defaults.iter().any(|used| used.key == key)
    }

    /// The job with its welds laid by an extruder; what it leaves to a default is that of the extruder.
    #[must_use]
    pub fn welded_by_extruder(&self) -> Self {
        const CHOICE: &str = "extrusion";
        let default = |key: &str| {
            self.is_default(key)
                .then(|| defaults::row(key, CHOICE).value)
        };
        let by_default = |key: &str| default(key).and_then(DeValue::as_str);
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
        if let Some(factor) = default("shop.rod_factor").and_then(DeValue::as_float) {
            // A compiled-in number is one; a test reads them all.
            job.shop.rates.rod_factor =
                factor.as_str().parse().unwrap_or(job.shop.rates.rod_factor);
        }
        if let Some(Ok(speed)) = by_default("shop.weld_speed").map(speed_text) {
            job.shop.rates.weld_speed = speed;
        }
        job
    }
}
