//! Bytes, compressed: one form for all time, so that the same bytes make the same database.

use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;

/// zlib level. 6: the customary balance.
const LEVEL: u8 = 6;
/// No packed thing is larger.
const MOST: usize = 1 << 30;

pub(super) fn pack(bytes: &[u8]) -> Vec<u8> {
    compress_to_vec_zlib(bytes, LEVEL)
}

pub(super) fn unpack(packed: &[u8]) -> Result<Vec<u8>, String> {
    decompress_to_vec_zlib_with_limit(packed, MOST)
        .map_err(|e| format!("a packed part cannot be opened: {e}"))
}

/// 64-bit FNV-1a (Fowler, Noll and Vo's published constants), going on from `before`.
pub(super) fn chain(before: i64, line: &str) -> i64 {
    const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    let bytes = before.to_be_bytes().into_iter().chain(line.bytes());
    let hash = bytes.fold(OFFSET, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(PRIME)
    });
    i64::from_be_bytes(hash.to_be_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_opens_and_what_is_not_is_said() {
        let text = "plan ".repeat(5000).into_bytes();
        let packed = pack(&text);
        assert!(packed.len() < text.len() / 20);
        assert_eq!(unpack(&packed), Ok(text));
        assert!(unpack(b"no zlib").is_err());
    }

    #[test]
    fn a_chain_hangs_on_every_line_before() {
        let one = chain(0, "a");
        assert_ne!(chain(one, "b"), chain(chain(0, "c"), "b"));
        assert_ne!(one, chain(0, "b"));
    }
}
