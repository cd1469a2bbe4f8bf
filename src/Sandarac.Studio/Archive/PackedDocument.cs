namespace Sandarac.Studio.Archive;

/// <summary>A document that goes into a package.</summary>
/// <param name="Name">The file's name: "first-examination.html".</param>
/// <param name="MediaType">"text/html".</param>
/// <param name="Write">Writes its bytes.</param>
public sealed record PackedDocument(string Name, string MediaType, Action<Stream> Write);

/// <summary>What was packed.</summary>
/// <param name="Path">Where the package lies.</param>
/// <param name="Title">What the painting is called.</param>
/// <param name="Files">Files of the payload.</param>
/// <param name="Bytes">Their length together.</param>
/// <param name="Rows">Rows of the record.</param>
public sealed record Package(string Path, string Title, int Files, long Bytes, int Rows);
