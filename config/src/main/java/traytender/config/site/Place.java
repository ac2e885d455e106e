package traytender.config.site;

/** Where a probe is: in a cell, at a whole tray, at a mat, or in a room. */
public sealed interface Place {
    /** In one cell of a tray. */
    record InCell(String tray, Cell cell) implements Place {}

    /** At a whole tray, such as a load cell under it. */
    record AtTray(String tray) implements Place {}

    /** On a mat or its plug. */
    record AtMat(String mat) implements Place {}

    /** In a room's air. */
    record InRoom(String room) implements Place {}
}
