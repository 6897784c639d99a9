//! Numbers out of bytes, with an end that is looked for.

use super::error::MeshError;

/// The order of the bytes of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    Little,
    Big,
}

/// Kinds of numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    I8,
    U8,
    I16,
    U16,
    I32,
    U32,
    F32,
    F64,
}

impl Kind {
    pub(super) fn size(self) -> usize {
        match self {
            Self::I8 | Self::U8 => 1,
            Self::I16 | Self::U16 => 2,
            Self::I32 | Self::U32 | Self::F32 => 4,
            Self::F64 => 8,
        }
    }
}

/// Bytes, and how many of them have been read.
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    pub(super) at: usize,
}

impl<'a> Reader<'a> {
    pub(super) fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0 }
    }

    /// The next so many bytes.
    pub(super) fn take(&mut self, count: usize) -> Result<&'a [u8], MeshError> {
        let end = self.at.checked_add(count).ok_or(MeshError::Ended)?;
        let taken = self.bytes.get(self.at..end).ok_or(MeshError::Ended)?;
        self.at = end;
        Ok(taken)
    }

    /// The next number.
    pub(super) fn number(&mut self, kind: Kind, order: Order) -> Result<f64, MeshError> {
        let taken = self.take(kind.size())?;
        let mut bytes = [0_u8; 8];
        let own = &mut bytes[..taken.len()];
        own.copy_from_slice(taken);
        if order == Order::Big {
            own.reverse();
        }
        let [a, b, c, d, ..] = bytes;
        Ok(match kind {
            Kind::I8 => f64::from(a as i8),
            Kind::U8 => f64::from(a),
            Kind::I16 => f64::from(i16::from_le_bytes([a, b])),
            Kind::U16 => f64::from(u16::from_le_bytes([a, b])),
            Kind::I32 => f64::from(i32::from_le_bytes([a, b, c, d])),
            Kind::U32 => f64::from(u32::from_le_bytes([a, b, c, d])),
            Kind::F32 => f64::from(f32::from_le_bytes([a, b, c, d])),
            Kind::F64 => f64::from_le_bytes(bytes),
        })
    }

    /// The next number as a count or place in a list.
    pub(super) fn index(&mut self, kind: Kind, order: Order) -> Result<usize, MeshError> {
        let place = self.at;
        let number = self.number(kind, order)?;
        if number < 0.0 || number.fract() != 0.0 {
            return Err(MeshError::form(
                format!("byte {place}"),
                "a number of a point is none",
            ));
        }
        Ok(number as usize)
    }
}
