using System.Text;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Archive;

/// <summary>What whoever finds a package in fifty years reads first.</summary>
internal static class PackReadme
{
    public const string Path = "readme.txt";

    public static void Write(Stream stream, Painting painting) => stream.Write(Encoding.UTF8.GetBytes($"""
        {BagIt.BagInfo.Line("Painting", painting.Title).TrimEnd()}
        Record  {painting.Id}

        This folder holds the record of the examination of one painting. It is the payload of a BagIt bag (RFC 8493): the files beside this folder list every file in it with its SHA-512, so that anyone can tell
        whether it is complete and unchanged, with any program that compares SHA-512.

        originals/               photographs exactly as they were taken in, under their own names
        pictures/as-taken/       the same as tiled TIFF pyramids
        pictures/on-the-plane/   photographs resampled to the painting's plane; the number at the end counts a photograph's alignments
        readings/                one folder a run, oldest first: what was run on what and with which parameters (provenance.json), the figures (figures.json), the rasters (TIFF, 32-bit floats)
        record/record.json       everything on record, every table and every revision; what the program reads back
        record/record.jsonld     the main things as linked data, by the model of Linked Art
        record/tables/           the same tables as record.json, as comma-separated text
        documents/               documents made from the record on the day it was packed
        ro-crate-metadata.json   every file with what it is (RO-Crate 1.1)

        Places on the painting are in millimetres from the upper left corner of the painted face, x to the right, y down. Times are UTC, except TakenAt, which is the camera's clock.

        """.ReplaceLineEndings("\n")));
}
