//! Which requests are answered: by loopback all from this machine; from the workshop's network those of a
//! device that has entered the one-time code. Host and Origin are checked in either case, against DNS
//! rebinding and cross-site requests.

use super::code::Code;
use super::connections::Endpoints;
use super::error::ApiError;
use super::random;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::Response;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// The cookie with the session token of a device that entered the code.
const COOKIE: &str = "brimful_pass";
/// Bytes of the largest body: a job's text as JSON.
pub(super) const MAX_BODY: usize = 2_200_000;
/// A request that has not been answered by then is given up, so that slow clients hold no connection.
pub(super) const REQUEST_TIMEOUT: Duration = Duration::from_secs(20);

/// Headers of every answer: a browser loads nothing from elsewhere and guesses no content types.
pub(super) const SECURITY_HEADERS: [(&str, &str); 6] = [
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

/// The port that a browser leaves out of Host and Origin.
const DEFAULT_PORT: u16 = 80;

/// The rules by which requests are let in.
#[derive(Debug)]
pub(crate) struct RequestGuard {
    /// As it is shown.
    address: SocketAddr,
    share: Option<Share>,
}

/// What lets others of the workshop in.
#[derive(Debug)]
struct Share {
    /// Good for one device.
    code: Code,
    tokens: Mutex<Vec<String>>,
}

impl RequestGuard {
    /// The guard of a server at this address. With `share` a code is made for others.
    pub(crate) fn new(address: SocketAddr, share: bool) -> Result<Self, ApiError> {
        let share = if share {
            Some(Share {
                code: Code::new()?,
                tokens: Mutex::new(Vec::new()),
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

    /// The session cookie for the code. The code is used up by it, and a new one made.
    pub(super) fn enter(&self, given: &str, from: IpAddr) -> Result<String, ApiError> {
        let share = self.share.as_ref().ok_or_else(|| {
            ApiError::forbidden(
                "This server is not shared, so no code is accepted.",
                "Start it with `--share`, or open the page at its own machine.",
            )
        })?;
        share.code.take(given, from, Instant::now())?;
        let token = random::token()?;
        let mut tokens = share.tokens.lock().unwrap_or_else(PoisonError::into_inner);
        tokens.push(token.clone());
        Ok(format!(
            "{COOKIE}={token}; HttpOnly; SameSite=Strict; Path=/; Max-Age=604800"
        ))
    }

    /// Whether a request has the session cookie of a device that entered the code.
    pub(crate) fn has_session(&self, headers: &HeaderMap) -> bool {
        let Some(share) = &self.share else {
            return false;
        };
        let tokens = share.tokens.lock().unwrap_or_else(PoisonError::into_inner);
        let cookies = headers.get_all(header::COOKIE).into_iter();
        let mut given = cookies
            .filter_map(|cookies| cookies.to_str().ok())
            .flat_map(|cookies| cookies.split(';'))
            .filter_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='));
        given.any(|given| tokens.iter().any(|token| token == given))
    }

    /// Whether a Host names this server: by `localhost`, the address that it shows, or the one that was
    /// asked. A page from elsewhere can have a name of its own lead here, but never an address.
    fn is_own_host(&self, host: &str, asked: IpAddr) -> bool {
        let (name, port) = match host.rsplit_once(':') {
            Some((name, port)) if !port.ends_with(']') => (name, port.parse().ok()),
            _ => (host, Some(DEFAULT_PORT)),
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

    /// Lets a request pass, or says why not.
    fn check(&self, endpoints: Endpoints, request: &Request) -> Result<(), ApiError> {
        let headers = request.headers();
        let host = single(headers, header::HOST)
            .filter(|host| self.is_own_host(host, endpoints.local.ip()))
            .ok_or_else(|| {
                ApiError::new(
                    StatusCode::MISDIRECTED_REQUEST,
                    "This server does not have that name.",
                    "Open the address that it shows.",
                )
            })?;
        if headers.contains_key(header::ORIGIN) && !is_same_origin(headers, &host) {
            return Err(ApiError::forbidden(
                "A page from elsewhere asked for that.",
                "Open the page from this server.",
            ));
        }
        if endpoints.peer.ip().is_loopback() || self.has_session(headers) || is_public(request) {
            return Ok(());
        }
        Err(ApiError::new(
            StatusCode::UNAUTHORIZED,
            "This server needs its code first.",
            "Type the code that it shows.",
        ))
    }
}

/// The value of a header that is there once, in lower case.
fn single(headers: &HeaderMap, name: HeaderName) -> Option<String> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?.to_str().ok()?;
    all.next().is_none().then(|| first.to_ascii_lowercase())
}

fn is_same_origin(headers: &HeaderMap, host: &str) -> bool {
    let own = format!("http://{host}");
    let origin = single(headers, header::ORIGIN);
    origin.as_deref().map(without_default_port) == Some(without_default_port(&own))
}

/// Whether a request needs no session: the page itself, and how it gets one.
fn is_public(request: &Request) -> bool {
    let path = request.uri().path();
    let is_entry = matches!(
        (request.method(), path),
        (&Method::POST, "/api/enter") | (&Method::GET, "/api/about")
    );
    is_entry || !path.starts_with("/api/")
}

/// The middleware that checks every request.
pub(super) async fn check(
    State(guard): State<Arc<RequestGuard>>,
    request: Request,
    next: Next,
) -> Result<Response, ApiError> {
    let endpoints = request.extensions().get::<Endpoints>().copied();
    let endpoints = endpoints.ok_or_else(|| {
        ApiError::forbidden(
            "The address of the client is not known.",
            "Open the page from this server.",
        )
    })?;
    guard.check(endpoints, &request)?;
    Ok(next.run(request).await)
}

fn without_default_port(origin: &str) -> &str {
    let port = format!(":{DEFAULT_PORT}");
    origin.strip_suffix(&port).unwrap_or(origin)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use axum::response::IntoResponse;

    const ASKED: [u8; 4] = [192, 168, 1, 5];

    /// Whether a request with these headers stays outside, and by which status.
    fn status(port: u16, host: &str, origin: Option<&str>) -> Option<u16> {
        // Where no way leads out of the network, the address shown is that of loopback.
        let guard = RequestGuard::new((Ipv4Addr::LOCALHOST, port).into(), true).unwrap();
        let endpoints = Endpoints {
            peer: ([127, 0, 0, 1], 50_000).into(),
            local: (ASKED, port).into(),
        };
        let mut request = axum::http::Request::get("/api/jobs").header(header::HOST, host);
        if let Some(origin) = origin {
            request = request.header(header::ORIGIN, origin);
        }
        let request = request.body(axum::body::Body::empty()).unwrap();
        let refused = guard.check(endpoints, &request).err();
        refused.map(|error| error.into_response().status().as_u16())
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
