package traytender.config.folder;

import traytender.config.crop.Crop;
import traytender.config.site.Mat;
import traytender.config.site.Room;
import traytender.config.site.Tray;

/** Everything a site's files name. */
final class SiteNames {
    final Names<Room> rooms = new Names<>("room");
    final Names<Mat> mats = new Names<>("mat");
    final Names<Tray> trays = new Names<>("tray");
    final Names<Boolean> probes = new Names<>("probe");
    final Names<Crop> crops = new Names<>("crop");
}
