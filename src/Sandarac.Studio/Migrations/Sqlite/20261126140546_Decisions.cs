using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Sandarac.Studio.Migrations.Sqlite
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Agent = table.Column<string>(type: "TEXT", nullable: false),
                    AgentKind = table.Column<string>(type: "TEXT", nullable: false),
                    AgentNote = table.Column<string>(type: "TEXT", nullable: false),
                    Aim = table.Column<string>(type: "TEXT", nullable: false),
                    AreaMm2 = table.Column<double>(type: "REAL", nullable: true),
                    Carrier = table.Column<string>(type: "TEXT", nullable: false),
                    DoneBy = table.Column<string>(type: "TEXT", nullable: false),
                    DoneOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    OnDirt = table.Column<string>(type: "TEXT", nullable: false),
                    OnOriginal = table.Column<string>(type: "TEXT", nullable: false),
                    OnOverpaint = table.Column<string>(type: "TEXT", nullable: false),
                    OnVarnish = table.Column<string>(type: "TEXT", nullable: false),
                    Passage = table.Column<string>(type: "TEXT", nullable: false),
                    Photographs = table.Column<string>(type: "TEXT", nullable: false),
                    PlannedSeconds = table.Column<double>(type: "REAL", nullable: true),
                    Seconds = table.Column<double>(type: "REAL", nullable: true),
                    SwabColour = table.Column<string>(type: "TEXT", nullable: false),
                    SwabTookPaint = table.Column<bool>(type: "INTEGER", nullable: true),
                    UltravioletAfter = table.Column<string>(type: "TEXT", nullable: false),
                    Verdict = table.Column<string>(type: "TEXT", nullable: false),
                    X = table.Column<double>(type: "REAL", nullable: true),
                    Y = table.Column<double>(type: "REAL", nullable: true),
                    ZoneId = table.Column<Guid>(type: "TEXT", nullable: true),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    DispersionMpa = table.Column<double>(type: "REAL", nullable: true),
                    PolarMpa = table.Column<double>(type: "REAL", nullable: true),
                    HydrogenMpa = table.Column<double>(type: "REAL", nullable: true),
                    RadiusMpa = table.Column<double>(type: "REAL", nullable: true),
                    TeasOutline = table.Column<string>(type: "TEXT", nullable: false),
                    Citation = table.Column<string>(type: "TEXT", nullable: false),
                    SupersedesId = table.Column<Guid>(type: "TEXT", nullable: true),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    WithdrawnAt = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HouseRegions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "LogEntries",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Departure = table.Column<string>(type: "TEXT", nullable: false),
                    Hours = table.Column<double>(type: "REAL", nullable: true),
                    IsTimedTest = table.Column<bool>(type: "INTEGER", nullable: false),
                    Materials = table.Column<string>(type: "TEXT", nullable: false),
                    NewlySeen = table.Column<string>(type: "TEXT", nullable: false),
                    On = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Photographs = table.Column<string>(type: "TEXT", nullable: false),
                    StepId = table.Column<Guid>(type: "TEXT", nullable: false),
                    What = table.Column<string>(type: "TEXT", nullable: false),
                    Who = table.Column<string>(type: "TEXT", nullable: false),
                    Zones = table.Column<string>(type: "TEXT", nullable: false),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Basis = table.Column<string>(type: "TEXT", nullable: false),
                    Confidence = table.Column<string>(type: "TEXT", nullable: false),
                    IsLater = table.Column<bool>(type: "INTEGER", nullable: true),
                    LayerId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Material = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    SpectrumId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ZoneId = table.Column<Guid>(type: "TEXT", nullable: true),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Advice = table.Column<string>(type: "TEXT", nullable: false),
                    AdvisedId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Options = table.Column<string>(type: "TEXT", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", nullable: false),
                    SupersedesId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    FileName = table.Column<string>(type: "TEXT", nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    Region = table.Column<string>(type: "TEXT", nullable: false),
                    Source = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    WithdrawnAt = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReferenceChronologies", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "RingSeries",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Board = table.Column<string>(type: "TEXT", nullable: false),
                    BoundariesMm = table.Column<string>(type: "TEXT", nullable: false),
                    DateBasis = table.Column<string>(type: "TEXT", nullable: false),
                    FirstYear = table.Column<int>(type: "INTEGER", nullable: true),
                    HasWaneyEdge = table.Column<bool>(type: "INTEGER", nullable: false),
                    Line = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    Origin = table.Column<string>(type: "TEXT", nullable: false),
                    PhotographId = table.Column<Guid>(type: "TEXT", nullable: true),
                    RunId = table.Column<Guid>(type: "TEXT", nullable: true),
                    SapwoodRings = table.Column<int>(type: "INTEGER", nullable: true),
                    WidthsMm = table.Column<string>(type: "TEXT", nullable: false),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Batch = table.Column<string>(type: "TEXT", nullable: false),
                    Supplier = table.Column<string>(type: "TEXT", nullable: false),
                    SheetOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false),
                    RemovedAt = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShelfItems", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Spectra",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    AnalysisVersion = table.Column<int>(type: "INTEGER", nullable: false),
                    Elements = table.Column<string>(type: "TEXT", nullable: false),
                    FileName = table.Column<string>(type: "TEXT", nullable: false),
                    LayerId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    Parameters = table.Column<string>(type: "TEXT", nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    X = table.Column<double>(type: "REAL", nullable: true),
                    Y = table.Column<double>(type: "REAL", nullable: true),
                    ZoneId = table.Column<Guid>(type: "TEXT", nullable: true),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    EndedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: false),
                    Operation = table.Column<string>(type: "TEXT", nullable: false),
                    ProposalId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ProposedStepId = table.Column<Guid>(type: "TEXT", nullable: true),
                    UrgentReason = table.Column<string>(type: "TEXT", nullable: false),
                    Zones = table.Column<string>(type: "TEXT", nullable: false),
                    PaintingId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CreatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    UpdatedAt = table.Column<long>(type: "INTEGER", nullable: false),
                    Revision = table.Column<int>(type: "INTEGER", nullable: false),
                    DeletedAt = table.Column<long>(type: "INTEGER", nullable: true)
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
                    ProposalId = table.Column<Guid>(type: "TEXT", nullable: false),
                    OptionId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    Custodian = table.Column<string>(type: "TEXT", nullable: false),
                    Role = table.Column<string>(type: "TEXT", nullable: false),
                    Organisation = table.Column<string>(type: "TEXT", nullable: false),
                    How = table.Column<string>(type: "TEXT", nullable: false),
                    Conditions = table.Column<string>(type: "TEXT", nullable: false),
                    By = table.Column<string>(type: "TEXT", nullable: false),
                    At = table.Column<long>(type: "INTEGER", nullable: false)
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
