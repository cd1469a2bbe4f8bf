using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Sandarac.Studio.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Decisions : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "CleaningTests",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Agent = table.Column<string>(type: "text", nullable: false),
                    AgentKind = table.Column<string>(type: "text", nullable: false),
                    AgentNote = table.Column<string>(type: "text", nullable: false),
                    Aim = table.Column<string>(type: "text", nullable: false),
                    AreaMm2 = table.Column<double>(type: "double precision", nullable: true),
                    Carrier = table.Column<string>(type: "text", nullable: false),
                    DoneBy = table.Column<string>(type: "text", nullable: false),
                    DoneOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    OnDirt = table.Column<string>(type: "text", nullable: false),
                    OnOriginal = table.Column<string>(type: "text", nullable: false),
                    OnOverpaint = table.Column<string>(type: "text", nullable: false),
                    OnVarnish = table.Column<string>(type: "text", nullable: false),
                    Passage = table.Column<string>(type: "text", nullable: false),
                    Photographs = table.Column<string>(type: "text", nullable: false),
                    PlannedSeconds = table.Column<double>(type: "double precision", nullable: true),
                    Seconds = table.Column<double>(type: "double precision", nullable: true),
                    SwabColour = table.Column<string>(type: "text", nullable: false),
                    SwabTookPaint = table.Column<bool>(type: "boolean", nullable: true),
                    UltravioletAfter = table.Column<string>(type: "text", nullable: false),
                    Verdict = table.Column<string>(type: "text", nullable: false),
                    X = table.Column<double>(type: "double precision", nullable: true),
                    Y = table.Column<double>(type: "double precision", nullable: true),
                    ZoneId = table.Column<Guid>(type: "uuid", nullable: true),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CleaningTests", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CleaningTests_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "HouseRegions",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    DispersionMpa = table.Column<double>(type: "double precision", nullable: true),
                    PolarMpa = table.Column<double>(type: "double precision", nullable: true),
                    HydrogenMpa = table.Column<double>(type: "double precision", nullable: true),
                    RadiusMpa = table.Column<double>(type: "double precision", nullable: true),
                    TeasOutline = table.Column<string>(type: "text", nullable: false),
                    Citation = table.Column<string>(type: "text", nullable: false),
                    SupersedesId = table.Column<Guid>(type: "uuid", nullable: true),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false),
                    WithdrawnAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HouseRegions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "LogEntries",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Departure = table.Column<string>(type: "text", nullable: false),
                    Hours = table.Column<double>(type: "double precision", nullable: true),
                    IsTimedTest = table.Column<bool>(type: "boolean", nullable: false),
                    Materials = table.Column<string>(type: "text", nullable: false),
                    NewlySeen = table.Column<string>(type: "text", nullable: false),
                    On = table.Column<DateOnly>(type: "date", nullable: true),
                    Photographs = table.Column<string>(type: "text", nullable: false),
                    StepId = table.Column<Guid>(type: "uuid", nullable: false),
                    What = table.Column<string>(type: "text", nullable: false),
                    Who = table.Column<string>(type: "text", nullable: false),
                    Zones = table.Column<string>(type: "text", nullable: false),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LogEntries", x => x.Id);
                    table.ForeignKey(
                        name: "FK_LogEntries_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "MaterialsFound",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Basis = table.Column<string>(type: "text", nullable: false),
                    Confidence = table.Column<string>(type: "text", nullable: false),
                    IsLater = table.Column<bool>(type: "boolean", nullable: true),
                    LayerId = table.Column<Guid>(type: "uuid", nullable: true),
                    Material = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    SpectrumId = table.Column<Guid>(type: "uuid", nullable: true),
                    ZoneId = table.Column<Guid>(type: "uuid", nullable: true),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_MaterialsFound", x => x.Id);
                    table.ForeignKey(
                        name: "FK_MaterialsFound_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Proposals",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Advice = table.Column<string>(type: "text", nullable: false),
                    AdvisedId = table.Column<Guid>(type: "uuid", nullable: true),
                    Options = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    SupersedesId = table.Column<Guid>(type: "uuid", nullable: true),
                    Title = table.Column<string>(type: "text", nullable: false),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Proposals", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Proposals_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ReferenceChronologies",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    Region = table.Column<string>(type: "text", nullable: false),
                    Source = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false),
                    WithdrawnAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReferenceChronologies", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "RingSeries",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Board = table.Column<string>(type: "text", nullable: false),
                    BoundariesMm = table.Column<string>(type: "text", nullable: false),
                    DateBasis = table.Column<string>(type: "text", nullable: false),
                    FirstYear = table.Column<int>(type: "integer", nullable: true),
                    HasWaneyEdge = table.Column<bool>(type: "boolean", nullable: false),
                    Line = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Origin = table.Column<string>(type: "text", nullable: false),
                    PhotographId = table.Column<Guid>(type: "uuid", nullable: true),
                    RunId = table.Column<Guid>(type: "uuid", nullable: true),
                    SapwoodRings = table.Column<int>(type: "integer", nullable: true),
                    WidthsMm = table.Column<string>(type: "text", nullable: false),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RingSeries", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RingSeries_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ShelfItems",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Batch = table.Column<string>(type: "text", nullable: false),
                    Supplier = table.Column<string>(type: "text", nullable: false),
                    SheetOn = table.Column<DateOnly>(type: "date", nullable: true),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false),
                    RemovedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShelfItems", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Spectra",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    AnalysisVersion = table.Column<int>(type: "integer", nullable: false),
                    Elements = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    LayerId = table.Column<Guid>(type: "uuid", nullable: true),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Parameters = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    X = table.Column<double>(type: "double precision", nullable: true),
                    Y = table.Column<double>(type: "double precision", nullable: true),
                    ZoneId = table.Column<Guid>(type: "uuid", nullable: true),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Spectra", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Spectra_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "TreatmentSteps",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    EndedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Operation = table.Column<string>(type: "text", nullable: false),
                    ProposalId = table.Column<Guid>(type: "uuid", nullable: true),
                    ProposedStepId = table.Column<Guid>(type: "uuid", nullable: true),
                    UrgentReason = table.Column<string>(type: "text", nullable: false),
                    Zones = table.Column<string>(type: "text", nullable: false),
                    PaintingId = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedAt = table.Column<long>(type: "bigint", nullable: false),
                    UpdatedAt = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<int>(type: "integer", nullable: false),
                    DeletedAt = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TreatmentSteps", x => x.Id);
                    table.ForeignKey(
                        name: "FK_TreatmentSteps_Paintings_PaintingId",
                        column: x => x.PaintingId,
                        principalTable: "Paintings",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ProposalApprovals",
                columns: table => new
                {
                    ProposalId = table.Column<Guid>(type: "uuid", nullable: false),
                    OptionId = table.Column<Guid>(type: "uuid", nullable: false),
                    Text = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    Custodian = table.Column<string>(type: "text", nullable: false),
                    Role = table.Column<string>(type: "text", nullable: false),
                    Organisation = table.Column<string>(type: "text", nullable: false),
                    How = table.Column<string>(type: "text", nullable: false),
                    Conditions = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ProposalApprovals", x => x.ProposalId);
                    table.ForeignKey(
                        name: "FK_ProposalApprovals_Proposals_ProposalId",
                        column: x => x.ProposalId,
                        principalTable: "Proposals",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_CleaningTests_PaintingId",
                table: "CleaningTests",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_LogEntries_PaintingId",
                table: "LogEntries",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_MaterialsFound_PaintingId",
                table: "MaterialsFound",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_Proposals_PaintingId",
                table: "Proposals",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_RingSeries_PaintingId",
                table: "RingSeries",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_Spectra_PaintingId",
                table: "Spectra",
                column: "PaintingId");

            migrationBuilder.CreateIndex(
                name: "IX_TreatmentSteps_PaintingId",
                table: "TreatmentSteps",
                column: "PaintingId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "CleaningTests");

            migrationBuilder.DropTable(
                name: "HouseRegions");

            migrationBuilder.DropTable(
                name: "LogEntries");

            migrationBuilder.DropTable(
                name: "MaterialsFound");

            migrationBuilder.DropTable(
                name: "ProposalApprovals");

            migrationBuilder.DropTable(
                name: "ReferenceChronologies");

            migrationBuilder.DropTable(
                name: "RingSeries");

            migrationBuilder.DropTable(
                name: "ShelfItems");

            migrationBuilder.DropTable(
                name: "Spectra");

            migrationBuilder.DropTable(
                name: "TreatmentSteps");

            migrationBuilder.DropTable(
                name: "Proposals");
        }
    }
}
