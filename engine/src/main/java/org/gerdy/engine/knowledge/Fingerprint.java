package org.gerdy.engine.knowledge;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 over what is added, in hexadecimal: it shows a change, and keeps nothing secret. */
public final class Fingerprint {
    private final MessageDigest digest;

    Fingerprint() {
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("Every Java has SHA-256.", e);
        }
    }

    /** The fingerprint of one text, in UTF-8: 64 hexadecimal digits. */
    public static String of(String text) {
        Fingerprint fingerprint = new Fingerprint();
        fingerprint.add(text.getBytes(StandardCharsets.UTF_8));
        return fingerprint.hex();
    }

    void add(byte... bytes) {
        digest.update(bytes);
    }

    String hex() {
        return HexFormat.of().formatHex(digest.digest());
    }
}
