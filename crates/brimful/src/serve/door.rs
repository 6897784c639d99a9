//! Who may come in: by loopback anybody at this machine; on the workshop's network who has typed the
//! one-time code. Host and Origin are looked at in either case, so that no page from elsewhere can
//! have a browser speak for it.

use super::Shop;
use super::code::Code;
use super::connections::Ends;
use super::refusal::Refusal;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Where the pass of somebody who typed the code is kept.
const COOKIE: &str = "brimful_pass";
/// Bytes of the largest body: a job's text as JSON.
pub(super) const LARGEST_BODY: usize = 2_200_000;
/// A request that has not been answered by then is given up: a slow sender keeps no place.
const PATIENCE: Duration = Duration::from_secs(20);

/// The port that a browser leaves out of Host and Origin.
const USUAL_PORT: u16 = 80;

/// The rules at the door.
#[derive(Debug)]
pub(crate) struct Door {
    /// As it is shown.
    address: SocketAddr,
    share: Option<Share>,
}

/// What lets others of the workshop in.
#[derive(Debug)]
struct Share {
    /// Good for one device.
    code: Code,
    passes: Mutex<Vec<String>>,
}

impl Door {
    /// The door of a server at this address. With `share` a code is made for others.
    pub(crate) fn new(address: SocketAddr, share: bool) -> Result<Self, Refusal> {
        let share = if share {
            Some(Share {
                code: Code::new()?,
                passes: Mutex::new(Vec::new()),
            })
        } else {
            None
        };
        Ok(Self { address, share })
    }

    /// The code that waits for a device; none where nobody else is let in.
    pub(crate) fn code(&self) -> Option<String> {
        self.share.as_ref().map(|share| share.code.shown())
    }

    /// Whether others of the workshop are let in.
    pub(crate) fn is_shared(&self) -> bool {
        self.share.is_some()
    }

    /// A pass for whoever gives the code. The code is used up by it, and a new one made.
    pub(super) fn enter(&self, given: &str, from: IpAddr) -> Result<String, Refusal> {
        let share = self.share.as_ref().ok_or_else(|| {
            Refusal::forbidden(
                "This server lets nobody in by a code.",
                "Start it with `--share`, or open the page at its own machine.",
            )
        })?;
        share.code.take(given, from, Instant::now())?;
        let pass = random_hex(16)?;
        let mut passes = share.passes.lock().unwrap_or_else(PoisonError::into_inner);
        passes.push(pass.clone());
        Ok(format!(
            "{COOKIE}={pass}; HttpOnly; SameSite=Strict; Path=/; Max-Age=604800"
        ))
    }

    /// Whether a request brings the pass of somebody who typed the code.
    pub(crate) fn has_pass(&self, headers: &HeaderMap) -> bool {
        let Some(share) = &self.share else {
            return false;
        };
        let passes = share.passes.lock().unwrap_or_else(PoisonError::into_inner);
        let cookies = headers.get_all(header::COOKIE).into_iter();
        let mut given = cookies
            .filter_map(|cookies| cookies.to_str().ok())
            .flat_map(|cookies| cookies.split(';'))
            .filter_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='));
        given.any(|given| passes.iter().any(|pass| pass == given))
    }

    /// Whether a Host names this server: by `localhost`, the address that it shows, or the one that was
    /// asked. A page from elsewhere can have a name of its own lead here, but never an address.
    fn is_own(&self, host: &str, asked: IpAddr) -> bool {
        let (name, port) = match host.rsplit_once(':') {
            Some((name, port)) if !port.ends_with(']') => (name, port.parse().ok()),
            _ => (host, Some(USUAL_PORT)),
        };
        let is_address = |address: IpAddr| match address {
            IpAddr::V4(address) => name == address.to_string(),
            IpAddr::V6(address) => name == format!("[{address}]"),
        };
        let here = [
            Ipv4Addr::LOCALHOST.into(),
            Ipv6Addr::LOCALHOST.into(),
            self.address.ip(),
            asked,
        ];
        port == Some(self.address.port())
            && (name == "localhost" || here.into_iter().any(is_address))
    }

    /// Why a request stays outside, if it does.
    fn refuses(&self, ends: Ends, request: &Request) -> Option<Refusal> {
        let headers = request.headers();
        let one = |name| {
            let mut all = headers.get_all(name).iter();
            let first = all.next()?.to_str().ok()?;
            all.next().is_none().then(|| first.to_ascii_lowercase())
        };
        let host = one(header::HOST);
        let host = host.filter(|host| self.is_own(host, ends.ours.ip()));
        let Some(host) = host else {
            return Some(Refusal::new(
                StatusCode::MISDIRECTED_REQUEST,
                "This server is not called that.",
                "Open the address that it shows.",
            ));
        };
        if headers.contains_key(header::ORIGIN) {
            let own = format!("http://{host}");
            let origin = one(header::ORIGIN);
            if origin.as_deref().map(without_usual_port) != Some(without_usual_port(&own)) {
                return Some(Refusal::forbidden(
                    "A page from elsewhere asked for that.",
                    "Open the page from this server.",
                ));
            }
        }
        let said = one(header::CONTENT_LENGTH).and_then(|length| length.parse::<u64>().ok());
        if said.is_some_and(|length| length > LARGEST_BODY as u64) {
            return Some(Refusal::too_large("a request", LARGEST_BODY));
        }
        let let_in = ends.theirs.ip().is_loopback() || self.has_pass(headers);
        let at_the_door = matches!(
            (request.method(), request.uri().path()),
            (&Method::POST, "/api/enter") | (&Method::GET, "/api/about")
        ) || !request.uri().path().starts_with("/api/");
        (!let_in && !at_the_door).then(|| {
            Refusal::new(
                StatusCode::UNAUTHORIZED,
                "This server lets in who has typed its code.",
                "Type the code that it shows.",
            )
        })
    }
}

/// Looks at every request before anything else does.
pub(super) async fn look(State(shop): State<Arc<Shop>>, request: Request, next: Next) -> Response {
    let ends = request.extensions().get::<Ends>().copied();
    let refused = match ends {
        Some(ends) => shop.door.refuses(ends, &request),
        None => Some(Refusal::forbidden(
            "It is not known who asks.",
            "Open the page from this server.",
        )),
    };
    let mut response = match refused {
        Some(refusal) => refusal.into_response(),
        None => match tokio::time::timeout(PATIENCE, next.run(request)).await {
            Ok(response) => response,
            Err(_) => Refusal::new(
                StatusCode::REQUEST_TIMEOUT,
                "That took longer than anybody waits.",
                "Send it again, in one go.",
            )
            .into_response(),
        },
    };
    let headers = response.headers_mut();
    for (name, value) in GUARDS {
        if let Ok(value) = value.parse() {
            headers.entry(*name).or_insert(value);
        }
    }
    response
}

/// What tells a browser to load nothing from elsewhere and to guess nothing.
const GUARDS: &[(&str, &str)] = &[
    (
        "content-security-policy",
        "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("cache-control", "no-store"),
];

fn without_usual_port(origin: &str) -> &str {
    let port = format!(":{USUAL_PORT}");
    origin.strip_suffix(&port).unwrap_or(origin)
}

/// Any number, each as likely as any other.
pub(super) fn random_number() -> Result<u64, Refusal> {
    let mut bytes = [0_u8; 8];
    fill(&mut bytes)?;
    Ok(u64::from_le_bytes(bytes))
}

fn random_hex(length: usize) -> Result<String, Refusal> {
    let mut bytes = vec![0_u8; length];
    fill(&mut bytes)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

fn fill(bytes: &mut [u8]) -> Result<(), Refusal> {
    getrandom::fill(bytes).map_err(|fault| {
        Refusal::own(
            format!("The system has no random numbers: {fault}."),
            "Start the server anew.",
        )
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    const ASKED: [u8; 4] = [192, 168, 1, 5];

    /// Whether a request with these headers stays outside, and by which status.
    fn status(port: u16, host: &str, origin: Option<&str>) -> Option<u16> {
        // Where no way leads out of the network, the address shown is that of loopback.
        let door = Door::new((Ipv4Addr::LOCALHOST, port).into(), true).unwrap();
        let ends = Ends {
            theirs: ([127, 0, 0, 1], 50_000).into(),
            ours: (ASKED, port).into(),
        };
        let mut request = axum::http::Request::get("/api/jobs").header(header::HOST, host);
        if let Some(origin) = origin {
            request = request.header(header::ORIGIN, origin);
        }
        let refused = door.refuses(ends, &request.body(axum::body::Body::empty()).unwrap());
        refused.map(|refusal| refusal.into_response().status().as_u16())
    }

    #[test]
    fn a_browser_leaves_the_usual_port_out() {
        for host in [
            "localhost",
            "127.0.0.1",
            "[::1]",
            "192.168.1.5",
            "localhost:80",
        ] {
            assert_eq!(status(80, host, None), None, "{host}");
            assert_eq!(
                status(80, host, Some("http://localhost.example")),
                Some(403)
            );
            assert_eq!(status(7070, host, None), Some(421), "{host}");
        }
        assert_eq!(status(80, "localhost:80", Some("http://localhost")), None);
        assert_eq!(
            status(80, "localhost", Some("https://localhost")),
            Some(403)
        );
    }

    #[test]
    fn the_address_that_was_asked_is_a_name_of_the_server() {
        assert_eq!(
            status(7070, "192.168.1.5:7070", Some("http://192.168.1.5:7070")),
            None
        );
        assert_eq!(status(7070, "localhost:7070", None), None);
        for host in [
            "192.168.1.6:7070",
            "192.168.1.5:7071",
            "evil.example:7070",
            "",
            ":7070",
        ] {
            assert_eq!(status(7070, host, None), Some(421), "{host}");
        }
    }
}
